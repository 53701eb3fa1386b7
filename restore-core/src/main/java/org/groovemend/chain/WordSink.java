package org.groovemend.chain;

import java.io.IOException;

/** Takes the treated side as words, in consecutive blocks; {@code WavWriter::write} fits. */
@FunctionalInterface
public interface WordSink {
  void write(long[][] words, int offset, int count) throws IOException;
}
