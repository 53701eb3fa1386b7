package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import picocli.CommandLine.Option;

/** The picture of a command that otherwise only tells. */
final class PictureOption {

  @Option(names = "--png", paramLabel = "FILE", description = "A picture to write as well.")
  private Path png;

  @Option(names = "--replace", description = "Write over the picture if it exists.")
  private boolean replace;

  /** File to write, or null. */
  Path png() {
    return png;
  }

  boolean replace() {
    return replace;
  }

  /** Says before any work begins that the picture cannot be. */
  void check() throws IOException {
    if (png != null) {
      OutPlace.requireFile(png, "--png");
    }
  }
}
