package org.groovemend.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;
import org.groovemend.playback.UnknownCurveException;

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

  /** What is wrong, with what was probably meant. */
  static String words(IllegalArgumentException e) {
    return e instanceof UnknownCurveException unknown
        ? unknown.getMessage()
            + Nearest.hint(unknown.word(), unknown.known())
            + "; 'groovemend curve' lists the names, or say TURNOVER/ROLLOFF, such as 400/12"
        : e.getMessage();
  }

  static <T> T check(Supplier<T> value) {
    try {
      return value.get();
    } catch (IllegalArgumentException e) {
      throw new UsageException(words(e));
    }
  }

  /** One file has nothing that it could be held against. */
  static void requireTwoPlays(List<Path> plays) {
    if (plays.size() < 2) {
      throw new UsageException("one play is not enough; give two or more transfers of one side");
    }
  }
}
