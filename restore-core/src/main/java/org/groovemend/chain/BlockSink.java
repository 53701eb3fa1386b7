package org.groovemend.chain;

import java.io.IOException;

/** Takes a side in consecutive blocks. */
@FunctionalInterface
interface BlockSink {
  /** Must not keep {@code samples}; they are reused. */
  void accept(long firstFrame, double[][] samples, int count) throws IOException;
}
