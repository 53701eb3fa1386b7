package org.groovemend;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.EvaluationResult;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Keeps commands, collections and the review page apart; the core's rooms have a test of theirs.
 */
class CliArchitectureTest {

  private static final String[] PACKAGES = {
    "org.groovemend.cli",
    "org.groovemend.batch",
    "org.groovemend.fixity",
    "org.groovemend.overview",
    "org.groovemend.review",
    "org.groovemend.watch"
  };

  private static JavaClasses rooms;

  @BeforeAll
  static void load() {
    rooms =
        new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages(PACKAGES);
  }

  @Test
  void roomsKnowOnlyWhatTheyMay() {
    assertThat(rooms).isNotEmpty();
    rules("review.door", "review.side", "review.desk", "review").check(rooms);
  }

  @Test
  void aStepInTheWrongDirectionIsNoticed() {
    // as if what lets requests in were the page's own package, which knows all of them
    EvaluationResult result =
        rules("review", "review.side", "review.desk", "review.door").evaluate(rooms);
    assertThat(result.hasViolation()).isTrue();
  }

  private static ArchRule rules(String door, String side, String desk, String review) {
    return layeredArchitecture()
        .consideringOnlyDependenciesInLayers()
        .layer("door")
        .definedBy("org.groovemend." + door)
        .layer("side")
        .definedBy("org.groovemend." + side)
        .layer("desk")
        .definedBy("org.groovemend." + desk)
        .layer("review")
        .definedBy("org.groovemend." + review)
        .layer("batch")
        .definedBy("org.groovemend.batch..")
        .layer("fixity")
        .definedBy("org.groovemend.fixity..")
        .layer("overview")
        .definedBy("org.groovemend.overview..")
        .layer("watch")
        .definedBy("org.groovemend.watch..")
        .layer("cli")
        .definedBy("org.groovemend.cli..")
        .whereLayer("door")
        .mayNotAccessAnyLayer()
        .whereLayer("side")
        .mayNotAccessAnyLayer()
        .whereLayer("desk")
        .mayOnlyAccessLayers("side")
        .whereLayer("review")
        .mayOnlyAccessLayers("door", "side", "desk")
        .whereLayer("batch")
        .mayNotAccessAnyLayer()
        .whereLayer("fixity")
        .mayOnlyAccessLayers("batch")
        .whereLayer("overview")
        .mayOnlyAccessLayers("batch")
        .whereLayer("watch")
        .mayOnlyAccessLayers("batch")
        .whereLayer("cli")
        .mayNotBeAccessedByAnyLayer()
        .ensureAllClassesAreContainedInArchitecture();
  }

  @Test
  void roomsAreFreeOfCycles() {
    slices().matching("org.groovemend.(**)").should().beFreeOfCycles().check(rooms);
  }

  @Test
  void onlyCommandsKnowOptionsAndOnlyTheDoorAndTheServerKnowHttp() {
    noClasses()
        .that()
        .resideOutsideOfPackage("org.groovemend.cli..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("picocli..", "org.snakeyaml..")
        .because("options and files of settings are the business of commands")
        .check(rooms);
    classes()
        .that()
        .resideInAnyPackage("org.groovemend.cli..", "org.groovemend.batch..")
        .should()
        .onlyDependOnClassesThat(
            JavaClass.Predicates.resideOutsideOfPackage("com.sun.net.httpserver.."))
        .because("what a browser sends passes through the door alone")
        .check(rooms);
    noClasses()
        .that()
        .resideInAnyPackage("org.groovemend.review.side..", "org.groovemend.review.desk..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("com.sun.net.httpserver..", "com.fasterxml.jackson..")
        .check(rooms);
  }

  @Test
  void theReviewPageDecidesNothingByItself() {
    noClasses()
        .that()
        .resideInAPackage("org.groovemend.review..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.groovemend.job..", "org.groovemend.signing..")
        .because("it reads files and saves decisions; copies and signatures are other verbs")
        .check(rooms);
    noClasses()
        .that()
        .resideInAPackage("org.groovemend.batch")
        .should()
        .dependOnClassesThat()
        .haveNameMatching("java\\.net\\.(?!URI).*")
        .because("other machines are the business of batch.cluster")
        .check(rooms);
  }
}
