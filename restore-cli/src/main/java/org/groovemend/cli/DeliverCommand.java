package org.groovemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import org.groovemend.chain.Progress;
import org.groovemend.job.deliver.Deliver;
import org.groovemend.job.deliver.DeliverOutcome;
import org.groovemend.job.deliver.DeliverPlan;
import org.groovemend.job.deliver.DeliverRequest;
import org.groovemend.job.deliver.Recipe;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "deliver",
    mixinStandardHelpOptions = true,
    header = "Make the copies that a recipe declares: preservation, objective, service.",
    description = {
      "",
      "A recipe (YAML) names sides, how they are treated, their speed, and the copies wanted: form,",
      "rate, depth, loudness, tags. They appear in a new folder, all or none, each with a record of",
      "what it was made from and how; 'groovemend verify FOLDER' follows every copy back to its original.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend deliver --example > recipe.yaml            a commented recipe to change",
      "  groovemend deliver recipe.yaml --plan                 what would be written",
      "  groovemend deliver recipe.yaml",
      "  groovemend deliver recipe.yaml a.wav b.wav --out set  sides named here, not in the recipe",
      "  groovemend verify set",
      "",
      "Exit codes: 0 done; 2 usage, or something cannot be as asked; 4 input refused; 6 output exists."
    })
final class DeliverCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @Parameters(index = "0", arity = "0..1", paramLabel = "RECIPE", description = "Recipe file.")
  private Path recipe;

  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "SIDE",
      description = "Transfers of sides, if the recipe names none.")
  private List<Path> sides;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description =
          "The folder to make; it must not exist. Default: RECIPE-delivery beside the recipe.")
  private Path out;

  @Option(names = "--plan", description = "Say what would be written, and write nothing.")
  private boolean plan;

  @Option(names = "--example", description = "Print a commented recipe.")
  private boolean example;

  @Option(names = "--schema", description = "Print the JSON schema of recipes.")
  private boolean schema;

  @Mixin private CommonOptions common;

  @Override
  public Integer call() throws Exception {
    PrintWriter text = spec.commandLine().getOut();
    if (example || schema) {
      if (recipe != null || example && schema) {
        throw new UsageException(
            "--example and --schema stand alone; nothing else is done with them");
      }
      if (schema) {
        Json.print(text, RecipeSchema.schema());
      } else {
        text.print(text("recipe.yaml"));
        text.flush();
      }
      return ExitCode.DONE;
    }
    if (recipe == null) {
      throw new UsageException(
          "name a recipe; 'groovemend deliver --example' prints one to begin with");
    }
    Recipe read = RecipeFile.read(recipe, sides == null ? List.of() : sides);
    Path folder = out == null ? beside(recipe) : out;
    if (plan) {
      DeliverView.print(DeliverPlan.of(read), folder, common.json(), text);
      return ExitCode.DONE;
    }
    OutPlace.requireFolder(folder);
    DeliverOutcome outcome;
    try (Hands hands = new Hands(common.threads())) {
      Progress bar = common.progress(Usage.fileName(recipe));
      try {
        outcome =
            Deliver.run(
                new DeliverRequest(read, folder, Version.number(), Clock.systemUTC().instant()),
                hands.crew(),
                hands.watching(bar));
      } finally {
        ProgressBar.clear(bar);
      }
    }
    DeliverView.print(outcome, common.json(), text);
    return ExitCode.DONE;
  }

  /** Where the delivery of a recipe goes, if nothing is said. */
  static Path beside(Path recipe) {
    String name = Usage.fileName(recipe);
    int dot = name.lastIndexOf('.');
    return recipe.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + "-delivery");
  }

  /** A recipe that is part of the program. */
  static String text(String name) {
    try (var in = DeliverCommand.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException("recipes are part of the program", e);
    }
  }
}
