package org.groovemend.delivery;

import java.io.IOException;
import java.nio.file.Path;

/**
 * A file that was to be written is one that is read: an original is never written over, whatever
 * was asked for.
 */
public final class OutputIsInputException extends IOException {

  private static final long serialVersionUID = 1L;

  public OutputIsInputException(Path output, Path input) {
    super(
        output
            + " is the same file as the input "
            + input
            + ", which is never written over; nothing was written. Choose another folder.");
  }
}
