package org.groovemend.delivery;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.FilePath;

/** A single file, such as a picture, that appears whole or not at all. */
public final class WholeFile {
  private WholeFile() {}

  /**
   * @param file to write; folders above it are made if they are missing
   * @param inputs files that are read and must never be written over
   * @throws OutputExistsException if it exists and {@code replace} is false
   * @throws OutputIsInputException if it is the same file as an input, by whatever name
   */
  public static void write(Path file, byte[] bytes, boolean replace, List<Path> inputs)
      throws IOException {
    Path absolute = file.toAbsolutePath();
    String name = FilePath.name(absolute);
    try (OutputSet outputs =
        OutputSet.open(FilePath.folder(absolute), List.of(name), replace, inputs)) {
      try (OutputStream out = outputs.create(name)) {
        out.write(bytes);
      }
      outputs.commit();
    }
  }
}
