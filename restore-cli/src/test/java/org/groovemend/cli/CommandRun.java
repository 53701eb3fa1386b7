package org.groovemend.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Arrays;

/** A command run within the test's own process, and what it said. */
record CommandRun(int code, String out, String err) {

  static CommandRun of(Object... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    var line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    int code = line.execute(Arrays.stream(args).map(String::valueOf).toArray(String[]::new));
    return new CommandRun(code, out.toString(), err.toString());
  }
}
