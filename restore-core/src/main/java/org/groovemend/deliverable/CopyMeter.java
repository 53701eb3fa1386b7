package org.groovemend.deliverable;

import org.groovemend.measure.Decibels;
import org.groovemend.measure.Loudness;
import org.groovemend.measure.LoudnessMeter;

/** Loudness and peak of a copy, or of several as one set, block by block. */
public final class CopyMeter {

  private LoudnessMeter loudness;
  private double peak;

  /** Begins another piece; the first one too. */
  public void begin(int sampleRateHz, int channels) {
    loudness =
        loudness == null
            ? new LoudnessMeter(sampleRateHz, channels)
            : loudness.next(sampleRateHz, channels);
  }

  /** Takes the next block, {@code samples[channel][0...count)}, full scale 1.0. */
  public void accept(double[][] samples, int count) {
    loudness.accept(samples, count);
    for (double[] channel : samples) {
      for (int i = 0; i < count; i++) {
        peak = Math.max(peak, Math.abs(channel[i]));
      }
    }
  }

  /** What was measured so far. */
  public CopyLevel finish() {
    Loudness all = loudness.finish();
    return new CopyLevel(all, Decibels.ofPower(peak * peak));
  }
}
