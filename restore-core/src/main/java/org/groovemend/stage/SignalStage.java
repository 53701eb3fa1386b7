package org.groovemend.stage;

import org.groovemend.audio.AudioFormat;

/** A treatment that may change any sample. */
public non-sealed interface SignalStage extends Stage {

  /**
   * A worker with its own work arrays, used by one thread at a time for any number of segments in
   * any order.
   */
  Worker open(AudioFormat format);

  /** Treats one segment. */
  interface Worker {
    /**
     * Writes the treated segment, {@code segmentEnd - segmentStart} samples per channel, to {@code
     * out[channel][0...]}. Neighbouring segments must join without a step.
     */
    void treat(SegmentWindow window, double[][] out);
  }
}
