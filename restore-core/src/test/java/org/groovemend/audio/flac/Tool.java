package org.groovemend.audio.flac;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A general audio program outside the project, as reference. Tests that need one that is not
 * installed are skipped.
 */
public record Tool(String program) {

  public static final Tool FLAC = new Tool("flac");
  public static final Tool FFMPEG = new Tool("ffmpeg");

  public void assumeInstalled() {
    boolean found = false;
    for (String folder : System.getenv("PATH").split(java.io.File.pathSeparator)) {
      found |= Files.isExecutable(Path.of(folder, program));
    }
    assumeTrue(found, "SKIPPED: " + program + " is not installed, nothing was compared with it");
  }

  /** Runs the program in a folder; fails with its output if it fails. */
  public void run(Path folder, Object... arguments) throws IOException, InterruptedException {
    if (exitCode(folder, arguments) != 0) {
      throw new AssertionError(
          program
              + " "
              + List.of(arguments)
              + " failed: "
              + Files.readString(folder.resolve("tool.log"), StandardCharsets.ISO_8859_1));
    }
  }

  int exitCode(Path folder, Object... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of(program));
    for (Object argument : arguments) {
      command.add(argument.toString());
    }
    return new ProcessBuilder(command)
        .directory(folder.toFile())
        .redirectErrorStream(true)
        .redirectInput(ProcessBuilder.Redirect.from(new java.io.File("/dev/null")))
        .redirectOutput(folder.resolve("tool.log").toFile())
        .start()
        .waitFor();
  }
}
