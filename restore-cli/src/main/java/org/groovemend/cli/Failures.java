package org.groovemend.cli;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.delivery.WriteTrouble;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.VerificationException;
import org.groovemend.sealed.SealedDocumentException;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/** One place where a failure becomes one sentence and an exit code. */
final class Failures {

  private static final String DISK_FULL =
      "the disk that is written to is full; no unfinished file is left there. Make room or choose another folder.";

  /** Options that name what is written. */
  private static final List<String> WRITTEN =
      List.of("--out", "--page", "--png", "--svg", "--marked", "--labels");

  private Failures() {}

  /** A failure as a sentence for people, a kind for machines, and an exit code. */
  record Failure(String kind, String sentence, int exitCode, boolean bug) {

    Map<String, Object> asMap() {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("kind", kind);
      map.put("message", sentence);
      map.put("exitCode", exitCode);
      return map;
    }
  }

  /**
   * @param inputs files that are read: trouble with one of them is the input's, trouble elsewhere
   *     that of writing
   * @param replaceable whether the command has the option --replace
   */
  static Failure describe(Throwable failure, Collection<Path> inputs, boolean replaceable) {
    return describe(failure, inputs, replaceable, "--out");
  }

  /**
   * @param written the option that says where
   */
  static Failure describe(
      Throwable failure, Collection<Path> inputs, boolean replaceable, String written) {
    if (failure instanceof InputRejectedException) {
      return new Failure("inputRefused", failure.getMessage(), ExitCode.INPUT_REFUSED, false);
    }
    if (failure instanceof OutputExistsException exists) {
      return new Failure(
          "outputExists",
          exists.path()
              + " exists already; nothing was written. Give another "
              + written
              + (replaceable ? ", or --replace to write over it." : "."),
          ExitCode.OUTPUT_EXISTS,
          false);
    }
    if (failure instanceof OutputIsInputException) {
      return new Failure("usage", failure.getMessage(), ExitCode.USAGE, false);
    }
    if (failure instanceof LedgerDamagedException damaged
        && damaged.damage() != LedgerDamagedException.Damage.NOT_A_LEDGER) {
      return new Failure(
          "verificationFailed",
          failure.getMessage() + " Take the ledger from another copy of it.",
          ExitCode.VERIFICATION_FAILED,
          false);
    }
    if (failure instanceof VerificationException
        || failure instanceof LedgerDamagedException
        || failure instanceof SealedDocumentException) {
      return new Failure(
          "verificationFailed", failure.getMessage(), ExitCode.VERIFICATION_FAILED, false);
    }
    if (failure instanceof LedgerVersionException) {
      return new Failure("inputRefused", failure.getMessage(), ExitCode.INPUT_REFUSED, false);
    }
    if (failure instanceof UsageException || failure instanceof RequestRefusedException) {
      return new Failure("usage", failure.getMessage(), ExitCode.USAGE, false);
    }
    if (failure instanceof NoSuchFileException || failure instanceof FileNotFoundException) {
      return new Failure(
          "inputRefused",
          failure.getMessage() + ": there is no such file; check the path.",
          ExitCode.INPUT_REFUSED,
          false);
    }
    if (failure instanceof AccessDeniedException denied && denied.getFile() != null) {
      Path file = Path.of(denied.getFile());
      return isRead(file, inputs)
          ? new Failure(
              "inputRefused",
              file + ": no permission to read it; ask its owner, or change its permissions.",
              ExitCode.INPUT_REFUSED,
              false)
          : new Failure("io", noPermissionToWrite(file), ExitCode.UNEXPECTED, false);
    }
    if (failure instanceof IOException trouble) {
      if (WriteTrouble.diskFull(trouble)) {
        return new Failure("io", DISK_FULL, ExitCode.UNEXPECTED, false);
      }
      String said =
          failure.getMessage() == null ? failure.getClass().getSimpleName() : failure.getMessage();
      return new Failure("io", said, ExitCode.UNEXPECTED, false);
    }
    if (failure instanceof CancellationException) {
      return new Failure(
          "interrupted", "interrupted; nothing was written.", ExitCode.INTERRUPTED, false);
    }
    if (failure instanceof OutOfMemoryError) {
      return new Failure(
          "memory",
          "not enough memory; set GROOVEMEND_JAVA_OPTS=-Xmx3g, or give fewer --threads.",
          ExitCode.UNEXPECTED,
          false);
    }
    return new Failure(
        "bug",
        "this is a fault of groovemend "
            + Version.number()
            + " ("
            + failure
            + "); nothing of this side was written. Please report it with the output of the same command and --debug.",
        ExitCode.UNEXPECTED,
        true);
  }

  static String noPermissionToWrite(Path place) {
    return place
        + ": no permission to write there; choose another folder or change its permissions.";
  }

  /**
   * Files beside a ledger are read though nobody named them; what is written can always be read
   * too.
   */
  private static boolean isRead(Path file, Collection<Path> inputs) {
    Path absolute = file.toAbsolutePath().normalize();
    return inputs.stream().anyMatch(input -> input.toAbsolutePath().normalize().equals(absolute))
        || Files.exists(file) && !Files.isReadable(file);
  }

  /** Every file that a command line names, but for what is to be written. */
  private static List<Path> inputs(ParseResult parsed) {
    List<Path> inputs = new ArrayList<>();
    for (ArgSpec argument : parsed.commandSpec().args()) {
      boolean written =
          argument instanceof OptionSpec option && WRITTEN.contains(option.longestName());
      if (written) {
        continue;
      }
      Object value = argument.getValue();
      for (Object one :
          value instanceof Collection<?> many ? many : Collections.singletonList(value)) {
        if (one instanceof Path path) {
          inputs.add(path);
        }
      }
    }
    return inputs;
  }

  static int ofUsage(ParameterException failure, String[] args) {
    CommandLine line = failure.getCommandLine();
    PrintWriter err = line.getErr();
    err.println("groovemend: " + failure.getMessage());
    UnmatchedArgumentException.printSuggestions(failure, err);
    err.println("Try '" + line.getCommandSpec().qualifiedName() + " --help' for what is possible.");
    if (Arrays.asList(args).contains("--json")) {
      Json.print(
          line.getOut(),
          Map.of(
              "error", new Failure("usage", failure.getMessage(), ExitCode.USAGE, false).asMap()));
    }
    return ExitCode.USAGE;
  }

  static int ofExecution(Exception failure, CommandLine line, ParseResult parsed) {
    CommandSpec spec = line.getCommandSpec();
    Failure told =
        describe(
            failure,
            inputs(parsed),
            spec.findOption("--replace") != null,
            WRITTEN.stream().filter(o -> spec.findOption(o) != null).findFirst().orElse("--out"));
    line.getErr().println("groovemend: " + told.sentence());
    if (parsed.originalArgs().contains("--debug")) {
      failure.printStackTrace(line.getErr());
    }
    if (parsed.originalArgs().contains("--json")) {
      Json.print(line.getOut(), Map.of("error", told.asMap()));
    }
    return told.exitCode();
  }
}
