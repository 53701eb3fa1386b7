package org.groovemend.audio;

import java.io.IOException;

/** Takes the pieces of a file in order. */
@FunctionalInterface
public interface LayoutSink {
  void accept(LayoutPiece piece) throws IOException;
}
