package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;

/**
 * What the pages and the help texts tell a person to type is what the program takes; nothing is
 * run.
 */
class DocsTest {

  private static final Path ROOT = Path.of(System.getProperty("basedir", "."), "..");

  /** A fence may be indented, inside a list. */
  private static final Pattern FENCE = Pattern.compile("(?ms)^ *```[^\n]*\n(.*?)^ *```");

  private static final Pattern SPAN = Pattern.compile("`([^`]+)`");

  /**
   * Words in brackets may run over the end of a line; what is behind # is a heading within the
   * page.
   */
  private static final Pattern LINK = Pattern.compile("\\[[^\\]]*\\]\\(([^)#]+)(?:#[^)]*)?\\)");

  private static final Pattern OURS = Pattern.compile("(?:\\S*/)?groovemend(?=\\s|$)(.*)");

  /** A command line of ours and the page it stands on. */
  record Told(String page, String arguments) {
    @Override
    public String toString() {
      return page + ": groovemend " + arguments;
    }
  }

  private static List<Path> pages() throws IOException {
    try (Stream<Path> docs = Files.walk(ROOT.resolve("docs"))) {
      return Stream.concat(
              Stream.of(ROOT.resolve("README.md"), ROOT.resolve("DEVELOPERS.md")),
              docs.filter(file -> file.toString().endsWith(".md")).sorted())
          .toList();
    }
  }

  static List<Told> commandLines() throws IOException {
    List<Told> all = new ArrayList<>();
    for (Path page : pages()) {
      for (String arguments : commandLinesOf(Files.readString(page))) {
        all.add(new Told(page.getFileName().toString(), arguments));
      }
    }
    return all;
  }

  /** Arguments of every command line of ours, in code blocks and in code within a sentence. */
  private static List<String> commandLinesOf(String markdown) {
    List<String> code = new ArrayList<>();
    Matcher fence = FENCE.matcher(markdown);
    while (fence.find()) {
      code.addAll(fence.group(1).lines().toList());
    }
    spansOf(markdown).forEach(code::add);
    return code.stream().flatMap(DocsTest::commandLinesIn).toList();
  }

  private static List<String> spansOf(String markdown) {
    List<String> spans = new ArrayList<>();
    Matcher span = SPAN.matcher(FENCE.matcher(markdown).replaceAll(""));
    while (span.find()) {
      spans.add(span.group(1).replaceAll("\\s+", " "));
    }
    return spans;
  }

  /** One line of a shell may hold several commands; where its output goes is none of ours. */
  private static Stream<String> commandLinesIn(String line) {
    return Arrays.stream(line.split(";|&&|\\|"))
        .map(command -> command.replaceFirst(">.*", "").strip())
        .map(OURS::matcher)
        .filter(Matcher::matches)
        .map(ours -> ours.group(1).strip())
        .filter(arguments -> !arguments.isEmpty());
  }

  private static void parse(String arguments) {
    Main.commandLine().parseArgs(arguments.split("\\s+"));
  }

  @ParameterizedTest
  @MethodSource("commandLines")
  void everyCommandLineOfThePagesIsOneTheProgramTakes(Told told) {
    assertDoesNotThrow(() -> parse(told.arguments()), told::toString);
  }

  @Test
  void everyCommandStandsOnSomePage() throws IOException {
    Set<String> told = new HashSet<>();
    commandLines().forEach(line -> told.add(line.arguments().split("\\s+")[0]));
    assertTrue(told.containsAll(HelpTest.commands().toList()), told.toString());
  }

  @Test
  void everyOptionThatASentenceNamesExists() throws IOException {
    Set<String> options = new HashSet<>();
    for (CommandLine command : Main.commandLine().getSubcommands().values()) {
      command.getCommandSpec().options().forEach(o -> options.addAll(List.of(o.names())));
    }
    int seen = 0;
    for (Path page : pages()) {
      for (String span : spansOf(Files.readString(page))) {
        if (span.startsWith("--")) {
          seen++;
          assertTrue(options.contains(span.split("[ =]")[0]), page + ": " + span);
        }
      }
    }
    assertTrue(seen > 10, "only " + seen + " options were found");
  }

  @Test
  void everyLinkToAFileOfOursLeadsToOne() throws IOException {
    int seen = 0;
    for (Path page : pages()) {
      Matcher link = LINK.matcher(Files.readString(page));
      while (link.find()) {
        if (!link.group(1).contains("://")) {
          seen++;
          Path target = page.resolveSibling(link.group(1));
          assertTrue(Files.exists(target), page + ": " + link.group(1));
        }
      }
    }
    assertTrue(seen > 10, "only " + seen + " links were found");
  }

  @ParameterizedTest
  @MethodSource("org.groovemend.cli.HelpTest#commands")
  void everyExampleOfTheHelpIsOneTheProgramTakes(String name) {
    // examples end in two blanks or more and a remark
    String[] footer =
        Main.commandLine().getSubcommands().get(name).getCommandSpec().usageMessage().footer();
    List<String> examples =
        Arrays.stream(footer)
            .map(line -> line.strip().replaceFirst("\\s{2,}.*", ""))
            .flatMap(DocsTest::commandLinesIn)
            .toList();
    assertTrue(!examples.isEmpty(), "no examples found");
    for (String example : examples) {
      assertDoesNotThrow(() -> parse(example), example);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Say `groovemend restore side.wav --outfolder cleaned` now.",
        "```\nrestore-cli/groovemend restore side.wav --outfolder cleaned\n```",
        "1. Then\n\n   ```sh\n   groovemend treatment > my.yaml; groovemend mend side.wav\n   ```\n",
        "```\ngroovemend revert side.ledger.jsonl\n```",
        "Across `groovemend verify\nside.ledger.jsonl --orignal side.wav` a line."
      })
  void aCommandLineThatCannotBeIsNoticed(String page) {
    List<String> lines = commandLinesOf(page);
    assertThrows(ParameterException.class, () -> lines.forEach(DocsTest::parse), lines.toString());
  }

  @Test
  void onlyCommandLinesOfOursAreRead() {
    assertEquals(
        List.of("treatment", "restore a.flac --treatment mine.yaml", "demo"),
        commandLinesOf(
            """
            # groovemend
            The `groovemend-ledger` of `groovemend.jar`, as `groovemend` writes it.
            ```
            groovemend treatment > mine.yaml; groovemend restore a.flac --treatment mine.yaml
            mvn -q verify
            restore-cli/groovemend demo
            ```
            """));
  }
}
