package org.groovemend.decisions;

import java.io.IOException;
import java.nio.file.Path;

/** Somebody else has the decisions open. */
public final class DecisionsTakenException extends IOException {

  private static final long serialVersionUID = 1L;

  DecisionsTakenException(Path file) {
    super(
        file
            + " is open in another review; close that one first, or give another file of decisions. Nothing was changed.");
  }
}
