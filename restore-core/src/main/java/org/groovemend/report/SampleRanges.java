package org.groovemend.report;

import java.io.IOException;

/** Samples of a side by position, full scale 1.0. */
@FunctionalInterface
public interface SampleRanges {

  /** Fills {@code into[channel][0...count)} with the frames from {@code firstFrame} on. */
  void read(long firstFrame, int count, double[][] into) throws IOException;
}
