package org.groovemend.cli;

import java.nio.file.Path;

/** The command, for tests of other rooms. */
public final class RunOverview {

  private RunOverview() {}

  /** Writes the overview of a collection; gives the exit code. */
  public static int on(Path folder) {
    return CommandRun.of("overview", folder).code();
  }
}
