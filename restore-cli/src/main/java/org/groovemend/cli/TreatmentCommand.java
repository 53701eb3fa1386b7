package org.groovemend.cli;

import java.util.concurrent.Callable;
import org.groovemend.job.restore.Treatment;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
    name = "treatment",
    mixinStandardHelpOptions = true,
    header =
        "Print a commented treatment file with every setting, its unit, range, default and reason.",
    description = {
      "",
      "Change what you like and give it to 'restore --treatment'. What you leave out keeps its",
      "default; a key that does not exist is refused. The schema is docs/reference/treatment.schema.json.",
      ""
    },
    footerHeading = "%nExamples:%n",
    footer = {
      "  groovemend treatment > mine.yaml",
      "  groovemend treatment --gentle > careful.yaml",
      "  groovemend restore side.wav --treatment mine.yaml"
    })
final class TreatmentCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @ArgGroup private Choice choice;

  private static final class Choice {
    @Option(names = "--gentle", description = "A lighter hand: fewer alarms, less noise taken.")
    private boolean gentle;

    @Option(names = "--schema", description = "Print the JSON schema of treatment files instead.")
    private boolean schema;
  }

  @Override
  public Integer call() {
    if (choice != null && choice.schema) {
      Json.print(spec.commandLine().getOut(), TreatmentSchema.schema());
    } else {
      Treatment treatment =
          choice != null && choice.gentle ? Treatment.gentle() : Treatment.defaults();
      spec.commandLine().getOut().print(TreatmentText.of(treatment));
      spec.commandLine().getOut().flush();
    }
    return ExitCode.DONE;
  }
}
