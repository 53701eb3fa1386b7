package org.groovemend.deliverable;

import org.groovemend.measure.Decibels;
import org.groovemend.measure.LoudnessMeter;
import org.groovemend.measure.TruePeakMeter;

/** Loudness and true peak of a copy, or of several as one set, block by block. */
public final class CopyMeter {

  private LoudnessMeter loudness;
  private TruePeakMeter peaks;
  private double largest;
  private double mostDbtp = Double.NEGATIVE_INFINITY;

  /** Begins another piece; the first one too. */
  public void begin(int sampleRateHz, int channels) {
    endPeaks();
    loudness =
        loudness == null
            ? new LoudnessMeter(sampleRateHz, channels)
            : loudness.next(sampleRateHz, channels);
    peaks = new TruePeakMeter(channels);
  }

  /** Takes the next block, {@code samples[channel][0...count)}, full scale 1.0. */
  public void accept(double[][] samples, int count) {
    loudness.accept(samples, count);
    peaks.accept(samples, count);
    for (double[] channel : samples) {
      for (int i = 0; i < count; i++) {
        largest = Math.max(largest, Math.abs(channel[i]));
      }
    }
  }

  private void endPeaks() {
    if (peaks != null) {
      for (double peak : peaks.finish()) {
        mostDbtp = Math.max(mostDbtp, peak);
      }
      peaks = null;
    }
  }

  /** Ends the measurement. */
  public CopyLevel finish() {
    endPeaks();
    return new CopyLevel(
        loudness.finish(), Math.max(mostDbtp, Decibels.ofPower(largest * largest)));
  }
}
