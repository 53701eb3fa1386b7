package org.groovemend.ledger;

import java.io.IOException;
import java.io.OutputStream;
import org.groovemend.audio.LayoutSink;
import org.groovemend.audio.WordSource;

/** Makes what writes a file again from its layout and its samples: {@code FileRebuilder::new}. */
@FunctionalInterface
public interface RebuilderFactory {

  /**
   * A sink that writes a file, piece by piece, from its layout and its words.
   *
   * @param samples the words of the file
   * @param out where the file goes; not to be closed. All bytes of a piece are written when the
   *     sink returns
   * @return takes the pieces in file order
   */
  LayoutSink open(WordSource samples, OutputStream out) throws IOException;
}
