package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.Model.OptionSpec;

class HelpTest {

  private static final int COLUMNS = 98;

  /** Every command of ours; "help" is the option parser's own. */
  static Stream<String> commands() {
    return Main.commandLine().getSubcommands().keySet().stream().filter(n -> !n.equals("help"));
  }

  private static String help(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    assertEquals(0, line.execute(args));
    assertEquals("", err.toString());
    return out.toString();
  }

  @Test
  void everyCommandIsKnown() {
    assertEquals(
        Set.of(
            "account",
            "bag",
            "bands",
            "compare",
            "batch",
            "catalogue",
            "demo",
            "disc",
            "noise",
            "overview",
            "edits",
            "curve",
            "deliver",
            "levels",
            "loading",
            "merge",
            "evaluate",
            "inspect",
            "watch",
            "key",
            "records",
            "report",
            "restore",
            "review",
            "revert",
            "undo",
            "sign",
            "speed",
            "treatment",
            "audit",
            "verify",
            "walls"),
        Set.copyOf(commands().toList()));
  }

  @ParameterizedTest
  @MethodSource("commands")
  void helpOfEveryCommandEndsInExamplesOfItself(String name) {
    String help = help(name, "--help");
    int examples = help.indexOf("Examples:");
    assertTrue(examples > help.lastIndexOf("\n  -"), "examples come after the options\n" + help);
    assertTrue(help.substring(examples).contains("groovemend " + name), help);
    assertEquals(help, help("help", name));
  }

  @Test
  void helpOfTheWholeNamesEveryCommandAndEveryExitCode() {
    String help = help("--help");
    commands().forEach(name -> assertTrue(help.contains("\n  " + name + " "), name));
    String codes = help.substring(help.indexOf("Exit codes:"));
    for (int code :
        new int[] {
          ExitCode.DONE,
          ExitCode.UNEXPECTED,
          ExitCode.USAGE,
          ExitCode.PARTLY_FAILED,
          ExitCode.INPUT_REFUSED,
          ExitCode.VERIFICATION_FAILED,
          ExitCode.OUTPUT_EXISTS,
          ExitCode.INTERRUPTED
        }) {
      assertTrue(codes.matches("(?s).*\\s" + code + " .*"), "code " + code + "\n" + codes);
    }
  }

  @Test
  void noLineIsWiderThanTheWidth() {
    assertNarrow(help("--help"));
    commands().forEach(name -> assertNarrow(help(name, "--help")));
  }

  private static void assertNarrow(String help) {
    help.lines().forEach(l -> assertTrue(l.length() <= COLUMNS, l.length() + " columns: " + l));
  }

  @Test
  void optionNamesAreUniqueAndVisibleOnesAreDescribed() {
    for (Map.Entry<String, CommandLine> command : Main.commandLine().getSubcommands().entrySet()) {
      Set<String> seen = new HashSet<>();
      for (OptionSpec option : command.getValue().getCommandSpec().options()) {
        for (String name : option.names()) {
          assertTrue(seen.add(name), command.getKey() + " " + name);
        }
        if (!option.hidden()) {
          assertFalse(
              String.join("", option.description()).isBlank(), command.getKey() + " " + option);
        }
      }
    }
  }

  @Test
  void defaultsThatTheHelpStatesAreThoseOfTheTreatment() {
    String flat = help("restore", "--help").replaceAll("\\s+", " ");
    assertTrue(
        flat.contains(
            "in dB; 0 leaves it alone. Default: "
                + Math.round(Treatment.defaults().noise().reductionDb())
                + "."),
        flat);
    assertEquals(CaptureCurve.UNKNOWN, Treatment.defaults().captured());
    assertEquals(
        List.of(StageId.CLICKS, StageId.THUMPS, StageId.NOISE), Treatment.defaults().stages());
  }

  @Test
  void versionIsPrinted() {
    assertTrue(help("--version").startsWith("groovemend "));
  }

  @Test
  void noCommandAtAllIsAUsageFailureAndNotAFault() {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    assertEquals(2, line.execute());
    assertFalse(err.toString().contains("fault of groovemend"), err.toString());
  }
}
