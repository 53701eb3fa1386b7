package org.groovemend;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.conditions.ArchConditions.accessTargetWhere;
import static com.tngtech.archunit.lang.conditions.ArchConditions.never;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Random;
import org.groovemend.stage.StageParameters;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Keeps the rooms apart. Every kind of rule is also shown to be able to fail. */
class ArchitectureTest {

  private static JavaClasses rooms;

  @BeforeAll
  static void load() {
    rooms =
        new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.groovemend");
  }

  @Test
  void roomsKnowOnlyWhatTheyMay() {
    layeredArchitecture()
        .consideringOnlyDependenciesInLayers()
        .layer("signal")
        .definedBy("org.groovemend.signal..")
        .layer("audio")
        .definedBy("org.groovemend.audio..")
        .layer("stage")
        .definedBy("org.groovemend.stage..")
        .layer("playback")
        .definedBy("org.groovemend.playback..")
        .layer("cartridge")
        .definedBy("org.groovemend.cartridge..")
        .layer("levels")
        .definedBy("org.groovemend.levels..")
        .layer("click")
        .definedBy("org.groovemend.click..")
        .layer("thump")
        .definedBy("org.groovemend.thump..")
        .layer("bands")
        .definedBy("org.groovemend.bands..")
        .layer("hum")
        .definedBy("org.groovemend.hum..")
        .layer("rumble")
        .definedBy("org.groovemend.rumble..")
        .layer("walls")
        .definedBy("org.groovemend.walls..")
        .layer("leadin")
        .definedBy("org.groovemend.leadin..")
        .layer("surfacenoise")
        .definedBy("org.groovemend.surfacenoise..")
        .layer("resample")
        .definedBy("org.groovemend.resample..")
        .layer("speed")
        .definedBy("org.groovemend.speed..")
        .layer("plays")
        .definedBy("org.groovemend.plays..")
        .layer("measure")
        .definedBy("org.groovemend.measure..")
        .layer("ledger")
        .definedBy("org.groovemend.ledger..")
        .layer("sealed")
        .definedBy("org.groovemend.sealed..")
        .layer("audit")
        .definedBy("org.groovemend.audit..")
        .layer("decisions")
        .definedBy("org.groovemend.decisions..")
        .layer("lineage")
        .definedBy("org.groovemend.lineage..")
        .layer("signing")
        .definedBy("org.groovemend.signing..")
        .layer("xml")
        .definedBy("org.groovemend.xml..")
        .layer("premis")
        .definedBy("org.groovemend.premis..")
        .layer("delivery")
        .definedBy("org.groovemend.delivery..")
        .layer("tags")
        .definedBy("org.groovemend.tags..")
        .layer("technical")
        .definedBy("org.groovemend.technical..")
        .layer("bag")
        .definedBy("org.groovemend.bag..")
        .layer("deliverable")
        .definedBy("org.groovemend.deliverable..")
        .layer("chain")
        .definedBy("org.groovemend.chain..")
        .layer("listening")
        .definedBy("org.groovemend.listening..")
        .layer("report")
        .definedBy("org.groovemend.report..")
        .layer("rotation")
        .definedBy("org.groovemend.rotation..")
        .layer("transfer")
        .definedBy("org.groovemend.transfer..")
        .layer("limits")
        .definedBy("org.groovemend.limits..")
        .layer("simulate")
        .definedBy("org.groovemend.simulate..")
        .layer("job")
        .definedBy("org.groovemend.job..")
        .layer("evaluate")
        .definedBy("org.groovemend.evaluate..")
        .whereLayer("signal")
        .mayNotAccessAnyLayer()
        .whereLayer("audio")
        .mayOnlyAccessLayers("signal")
        .whereLayer("stage")
        .mayOnlyAccessLayers("audio")
        .whereLayer("playback")
        .mayOnlyAccessLayers("signal", "audio", "stage", "cartridge")
        .whereLayer("cartridge")
        .mayNotAccessAnyLayer()
        .whereLayer("levels")
        .mayOnlyAccessLayers("playback", "cartridge")
        .whereLayer("click")
        .mayOnlyAccessLayers("signal", "audio", "stage", "playback", "rotation")
        .whereLayer("thump")
        .mayOnlyAccessLayers("signal", "audio", "stage", "click")
        .whereLayer("bands")
        .mayOnlyAccessLayers("signal", "audio", "stage", "leadin")
        .whereLayer("hum")
        .mayOnlyAccessLayers("signal", "audio", "stage")
        .whereLayer("rumble")
        .mayOnlyAccessLayers("signal", "audio", "stage")
        .whereLayer("walls")
        .mayOnlyAccessLayers("signal", "audio", "stage")
        .whereLayer("leadin")
        .mayOnlyAccessLayers("signal", "audio", "stage")
        .whereLayer("surfacenoise")
        .mayOnlyAccessLayers("signal", "audio", "stage", "leadin", "rotation")
        .whereLayer("resample")
        .mayOnlyAccessLayers("signal", "audio", "stage")
        .whereLayer("speed")
        .mayOnlyAccessLayers("signal", "audio", "stage", "hum", "rotation", "resample")
        .whereLayer("plays")
        .mayOnlyAccessLayers("signal", "audio", "stage", "resample", "chain")
        .whereLayer("measure")
        .mayOnlyAccessLayers("signal", "audio")
        .whereLayer("ledger")
        .mayOnlyAccessLayers("audio")
        .whereLayer("sealed")
        .mayOnlyAccessLayers("ledger")
        .whereLayer("audit")
        .mayOnlyAccessLayers("signal", "audio", "stage", "walls", "resample", "measure", "ledger")
        .whereLayer("decisions")
        .mayOnlyAccessLayers("audio", "ledger", "sealed", "delivery")
        .whereLayer("lineage")
        .mayOnlyAccessLayers("audio", "ledger", "decisions", "sealed")
        .whereLayer("signing")
        .mayOnlyAccessLayers("audio", "ledger", "sealed")
        .whereLayer("xml")
        .mayNotAccessAnyLayer()
        .whereLayer("premis")
        .mayOnlyAccessLayers("xml")
        .whereLayer("delivery")
        .mayOnlyAccessLayers("audio")
        .whereLayer("tags")
        .mayOnlyAccessLayers("audio")
        .whereLayer("technical")
        .mayOnlyAccessLayers("audio", "ledger", "xml")
        .whereLayer("bag")
        .mayOnlyAccessLayers("delivery")
        .whereLayer("deliverable")
        .mayOnlyAccessLayers("audio", "stage", "measure", "tags")
        .whereLayer("chain")
        .mayOnlyAccessLayers("stage", "audio")
        .whereLayer("report")
        .mayOnlyAccessLayers("signal", "audio", "measure")
        .whereLayer("listening")
        .mayOnlyAccessLayers("signal", "audio", "measure", "chain", "stage")
        .whereLayer("rotation")
        .mayNotAccessAnyLayer()
        .whereLayer("transfer")
        .mayOnlyAccessLayers("signal", "audio", "measure", "leadin", "rotation")
        .whereLayer("limits")
        .mayNotAccessAnyLayer()
        .whereLayer("simulate")
        .mayOnlyAccessLayers("signal", "audio", "playback")
        .whereLayer("job")
        .mayOnlyBeAccessedByLayers("evaluate")
        .whereLayer("evaluate")
        .mayNotBeAccessedByAnyLayer()
        .ensureAllClassesAreContainedInArchitecture()
        .because("a newcomer finds the room for a change from the folder list alone")
        .check(rooms);
  }

  @Test
  void roomsAreFreeOfCycles() {
    slices()
        .matching("org.groovemend.(**)")
        .should()
        .beFreeOfCycles()
        .because("dependencies go one way")
        .check(rooms);
  }

  @Test
  void signalIsPureArithmetic() {
    noClasses()
        .that()
        .resideInAPackage("org.groovemend.signal..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "java.io..",
            "java.nio.file..",
            "java.time..",
            "java.util.concurrent..",
            "java.util.logging..")
        .because("it knows no files, clocks, loggers or threads")
        .check(rooms);
  }

  @Test
  void everyJobHasARoomAndWhatTheyShareIsBelowThem() {
    noClasses()
        .that()
        .doNotHaveSimpleName("package-info")
        .should()
        .resideInAPackage("org.groovemend.job")
        .because("a job lies in the room of its verb")
        .check(rooms);
    noClasses()
        .that()
        .resideInAPackage("org.groovemend.job.side..")
        .should()
        .dependOnClassesThat(
            resideInAPackage("org.groovemend.job..")
                .and(not(resideInAPackage("org.groovemend.job.side.."))))
        .because("it is what they share")
        .check(rooms);
  }

  @Test
  void everyLibraryHasOneDoor() {
    noClasses()
        .that()
        .resideOutsideOfPackage("org.groovemend.signal.fft..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.jtransforms..", "org.visnow..")
        .because("the transform can then be replaced in one place")
        .check(rooms);
    noClasses()
        .that()
        .resideOutsideOfPackage("org.groovemend.tags..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.jaudiotagger..")
        .because("it would write into files in place")
        .check(rooms);
    noClasses()
        .that()
        .resideOutsideOfPackages(
            "org.groovemend.ledger..", "org.groovemend.sealed..", "org.groovemend.job..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("com.fasterxml.jackson..")
        .because("JSON is the business of the ledger, of sealed documents and of the treatment")
        .check(rooms);
  }

  @Test
  void coreNeverPrintsExitsOrMakesThreads() {
    noClasses()
        .should(ACCESS_STANDARD_STREAMS)
        .because("results are returned, not printed")
        .check(rooms);
    noClasses().should().callMethod(System.class, "exit", int.class).check(rooms);
    noClasses()
        .should()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.util.concurrent.Executors")
        .because("the executor is passed in")
        .check(rooms);
    noClasses().should().callConstructor(Thread.class, Runnable.class).check(rooms);
  }

  @Test
  void sameBytesOnEveryMachine() {
    sameMath().check(rooms);
    noClasses()
        .should()
        .callConstructor(Random.class)
        .because("an unseeded generator repeats nothing")
        .check(rooms);
  }

  private static ArchRule sameMath() {
    return classes()
        .should(
            never(
                accessTargetWhere(
                    DescribedPredicate.<JavaAccess<?>>describe(
                        "inexact functions of Math",
                        access ->
                            access.getTargetOwner().isEquivalentTo(Math.class)
                                && access
                                    .getName()
                                    .matches(
                                        "sin|cos|tan|asin|acos|atan|atan2|exp|expm1|log|log10|log1p"
                                            + "|pow|sinh|cosh|tanh|cbrt|hypot")))))
        .because("their last bit differs between processors; StrictMath's does not");
  }

  @Test
  void parametersAreRecordsNamedSo() {
    classes()
        .that()
        .implement(StageParameters.class)
        .should()
        .beRecords()
        .andShould()
        .haveSimpleNameEndingWith("Parameters")
        .because("a setting that can change while it runs cannot be logged")
        .check(rooms);
  }

  @Test
  void nothingMutableIsStatic() {
    fields()
        .that()
        .areStatic()
        .and()
        .areDeclaredInClassesThat()
        .resideInAPackage("org.groovemend..")
        .should()
        .beFinal()
        .because("two jobs must not meet in a static")
        .check(rooms);
  }

  @Test
  void failuresHaveNames() {
    NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS.check(rooms);
  }

  /** A class that breaks the rules, to show that they can be broken. */
  @SuppressWarnings("unused")
  static final class Breaker {
    static int mutable;

    double breakMath(double x) {
      return java.util.stream.DoubleStream.of(x).map(Math::sin).sum() + Math.pow(x, 2);
    }

    void print() {
      System.out.println();
    }
  }

  @Test
  void theRulesCanFail() {
    JavaClasses broken = new ClassFileImporter().importClasses(Breaker.class);
    assertThat(sameMath().evaluate(broken).hasViolation()).isTrue();
    assertThat(noClasses().should(ACCESS_STANDARD_STREAMS).evaluate(broken).hasViolation())
        .isTrue();
    assertThat(fields().that().areStatic().should().beFinal().evaluate(broken).hasViolation())
        .isTrue();
    JavaClass breaker = broken.get(Breaker.class);
    assertThat(breaker.getModifiers()).contains(JavaModifier.FINAL);
    assertThat(
            noClasses()
                .should()
                .callMethodWhere(target(owner(nameMatching(".*PrintStream"))))
                .evaluate(broken)
                .hasViolation())
        .isTrue();
  }
}
