package org.groovemend.cli;

import java.nio.file.Path;
import java.util.function.Supplier;

/** Turns a value that is refused or cannot be into a usage failure. */
final class Usage {

  private Usage() {}

  /** The name of a side without its folders; an empty name and a root have none. */
  static String fileName(Path side) {
    Path name = side.getFileName();
    if (name == null || name.toString().isEmpty()) {
      throw new UsageException(
          "\"" + side + "\" is not the name of a file; name one audio file for each side");
    }
    return name.toString();
  }

  static <T> T check(Supplier<T> value) {
    try {
      return value.get();
    } catch (IllegalArgumentException e) {
      throw new UsageException(e.getMessage());
    }
  }
}
