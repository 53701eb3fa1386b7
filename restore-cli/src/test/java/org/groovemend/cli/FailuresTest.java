package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.EOFException;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.VerificationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

class FailuresTest {

  // codes and kinds as docs/reference/exit-codes.md publishes them, written out here on purpose
  static Stream<Arguments> failures() {
    Path side = Path.of("side.wav");
    return Stream.of(
        Arguments.of(
            new InputRejectedException(side, "byte 0", "not a side", "give a WAV"),
            "inputRefused",
            4),
        Arguments.of(new NoSuchFileException("side.wav"), "inputRefused", 4),
        Arguments.of(new FileNotFoundException("side.wav"), "inputRefused", 4),
        Arguments.of(new AccessDeniedException("side.wav"), "inputRefused", 4),
        Arguments.of(new AccessDeniedException("cleaned/.groovemend-1"), "io", 1),
        Arguments.of(new OutputExistsException(side), "outputExists", 6),
        Arguments.of(
            new VerificationException("It is another file.", List.of()), "verificationFailed", 5),
        Arguments.of(new UsageException("no"), "usage", 2),
        Arguments.of(
            new RequestRefusedException("the lead-in is longer than the side"), "usage", 2),
        Arguments.of(new IllegalArgumentException("window length 0"), "bug", 1),
        Arguments.of(new FileSystemException("side.wav", null, "No space left"), "io", 1),
        Arguments.of(new IOException("broken disk"), "io", 1),
        Arguments.of(new EOFException(), "io", 1),
        Arguments.of(new OutOfMemoryError("heap"), "memory", 1),
        Arguments.of(new IllegalStateException("oh"), "bug", 1));
  }

  private static Failures.Failure told(Throwable failure) {
    return Failures.describe(failure, List.of(Path.of("x", "..", "side.wav")), true);
  }

  @ParameterizedTest
  @MethodSource("failures")
  void everyFailureHasItsPublishedKindAndCode(Throwable failure, String kind, int code) {
    Failures.Failure told = told(failure);
    assertEquals(kind, told.kind());
    assertEquals(code, told.exitCode());
    assertEquals("bug".equals(kind), told.bug());
    assertFalse(told.sentence().isBlank());
    assertFalse(told.sentence().contains("null"), told.sentence());
    assertFalse(told.sentence().contains("\n"), told.sentence());
  }

  @SuppressWarnings("unused") // the handler reads them from the command line
  @Command(name = "failing")
  private static final class Failing implements Callable<Integer> {
    private final Exception failure;

    @Option(names = "--treatment")
    private Path treatment;

    @Parameters private List<Path> sides;

    @Option(names = "--out")
    private Path out;

    Failing(Exception failure) {
      this.failure = failure;
    }

    @Override
    public Integer call() throws Exception {
      throw failure;
    }
  }

  @ParameterizedTest
  @MethodSource("failures")
  void aCommandThatFailsEndsWithThatCode(Throwable failure, String kind, int code) {
    assumeTrue(failure instanceof Exception, "errors are not for the handler of exceptions");
    StringWriter err = new StringWriter();
    CommandLine line = new CommandLine(new Failing((Exception) failure));
    line.setErr(new PrintWriter(err));
    line.setExecutionExceptionHandler(Failures::ofExecution);
    assertEquals(code, line.execute("side.wav", "--out", "cleaned"));
    assertEquals(1, err.toString().lines().count(), "no trace unless asked for: " + err);
  }

  @Test
  void whatMayNotBeReadAndWhatMayNotBeWrittenAreToldApart() {
    for (String read : List.of("side.wav", "other.wav", "mine.yaml")) {
      assertTrue(ofDenied(read, 4).contains("read it"), read);
    }
    for (String written : List.of("cleaned", "cleaned/.groovemend-7", "elsewhere")) {
      assertTrue(ofDenied(written, 1).contains("write there"), written);
    }
  }

  private static String ofDenied(String file, int code) {
    StringWriter err = new StringWriter();
    CommandLine line = new CommandLine(new Failing(new AccessDeniedException(file)));
    line.setErr(new PrintWriter(err));
    line.setExecutionExceptionHandler(Failures::ofExecution);
    assertEquals(
        code,
        line.execute("side.wav", "other.wav", "--out", "cleaned", "--treatment", "mine.yaml"));
    return err.toString();
  }

  @Test
  void onlyACommandThatCanReplaceSpeaksOfReplacing() {
    OutputExistsException exists = new OutputExistsException(Path.of("a.wav"));
    assertFalse(Failures.describe(exists, List.of(), false).sentence().contains("--replace"));
  }

  @Test
  void anExistingOutputSaysWhatToDo() {
    String sentence = told(new OutputExistsException(Path.of("a.wav"))).sentence();
    assertTrue(sentence.contains("a.wav") && sentence.contains("--replace"), sentence);
  }

  @Test
  void aFullDiskSaysWhatToDo() {
    String sentence = told(new IOException("No space left on device")).sentence();
    assertTrue(sentence.contains("Make room"), sentence);
  }

  @Test
  void onlyAFaultOfTheProgramAsksForAReport() {
    assertTrue(told(new NullPointerException("x")).sentence().contains("report"));
    assertFalse(told(new IOException("x")).sentence().contains("report"));
  }

  @Test
  void usageIsOneSentenceOnErrAndWithJsonAlsoAnObjectOnOut() throws IOException {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    assertEquals(2, line.execute("restore", "side.wav", "--stagse", "clicks", "--json"));
    assertTrue(err.toString().startsWith("groovemend: "), err.toString());
    assertTrue(err.toString().contains("--stages"), "names the nearest option: " + err);
    var error = new ObjectMapper().readTree(out.toString()).get("error");
    assertEquals("usage", error.get("kind").asText());
    assertEquals(2, error.get("exitCode").asInt());
  }

  @Test
  void aFailureWithoutJsonLeavesOutEmptyAndShowsNoTrace() {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    assertEquals(4, line.execute("inspect", "no-such-side.wav"));
    assertEquals("", out.toString());
    assertEquals(1, err.toString().lines().count(), err.toString());
    assertTrue(err.toString().contains("no-such-side.wav"), err.toString());
  }
}
