package org.groovemend.cli;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.delivery.OutputExistsException;
import org.groovemend.delivery.OutputIsInputException;
import org.groovemend.job.RequestRefusedException;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerVersionException;
import org.groovemend.ledger.VerificationException;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/** One place where a failure becomes one sentence and an exit code. */
final class Failures {

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

  static Failure describe(Throwable failure) {
    if (failure instanceof InputRejectedException) {
      return new Failure("inputRefused", failure.getMessage(), ExitCode.INPUT_REFUSED, false);
    }
    if (failure instanceof OutputExistsException) {
      return new Failure(
          "outputExists",
          failure.getMessage() + " Give another --out, or --replace to write over it.",
          ExitCode.OUTPUT_EXISTS,
          false);
    }
    if (failure instanceof OutputIsInputException) {
      return new Failure("usage", failure.getMessage(), ExitCode.USAGE, false);
    }
    if (failure instanceof VerificationException || failure instanceof LedgerDamagedException) {
      return new Failure("verificationFailed", failure.getMessage(), ExitCode.VERIFICATION_FAILED, false);
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
    if (failure instanceof AccessDeniedException) {
      return new Failure(
          "inputRefused",
          failure.getMessage() + ": permission denied; check who may read or write there.",
          ExitCode.INPUT_REFUSED,
          false);
    }
    if (failure instanceof FileSystemException) {
      return new Failure("io", failure.getMessage(), ExitCode.UNEXPECTED, false);
    }
    if (failure instanceof IOException) {
      return new Failure("io", failure.getMessage(), ExitCode.UNEXPECTED, false);
    }
    if (failure instanceof CancellationException) {
      return new Failure("interrupted", "interrupted; nothing was written.", ExitCode.INTERRUPTED, false);
    }
    if (failure instanceof OutOfMemoryError) {
      return new Failure(
          "memory",
          "not enough memory; set GROOVEMEND_JAVA_OPTS=-Xmx2g, or give fewer --threads.",
          ExitCode.UNEXPECTED,
          false);
    }
    return new Failure(
        "bug",
        "this is a fault of groovemend " + Version.number() + " (" + failure
            + "); nothing of this side was written. Please report it with the output of the same command and --debug.",
        ExitCode.UNEXPECTED,
        true);
  }

  static int ofUsage(ParameterException failure, String[] args) {
    CommandLine line = failure.getCommandLine();
    PrintWriter err = line.getErr();
    err.println("groovemend: " + failure.getMessage());
    UnmatchedArgumentException.printSuggestions(failure, err);
    err.println(
        "Try '" + line.getCommandSpec().qualifiedName() + " --help' for what is possible.");
    if (Arrays.asList(args).contains("--json")) {
      Json.print(
          line.getOut(),
          Map.of("error", new Failure("usage", failure.getMessage(), ExitCode.USAGE, false).asMap()));
    }
    return ExitCode.USAGE;
  }

  static int ofExecution(Exception failure, CommandLine line, ParseResult parsed) {
    Failure told = describe(failure);
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
