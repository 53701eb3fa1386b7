package org.groovemend.cli;

/**
 * Exit codes of every command; published in docs/reference/exit-codes.md. Any other code means
 * failure.
 */
final class ExitCode {

  static final int DONE = 0;
  static final int UNEXPECTED = 1;
  static final int USAGE = 2;
  static final int PARTLY_FAILED = 3;
  static final int INPUT_REFUSED = 4;
  static final int VERIFICATION_FAILED = 5;
  static final int OUTPUT_EXISTS = 6;
  static final int PERSON_NEEDED = 7;
  static final int INTERRUPTED = 130;

  private ExitCode() {}
}
