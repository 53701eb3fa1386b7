package org.groovemend.resample;

import java.io.IOException;

/** Takes resampled sound in order. */
@FunctionalInterface
public interface SampleSink {

  /**
   * @param samples by channel; valid during the call only
   * @param count frames from index 0 on
   */
  void accept(long firstFrame, double[][] samples, int count) throws IOException;
}
