package org.groovemend.report;

/**
 * Extremes and RMS of a side in columns of time, per channel.
 *
 * @param frames length of the side
 * @param sampleRateHz samples a second
 * @param min {@code [channel][column]}, smallest sample, full scale 1.0
 * @param max largest sample
 * @param rms root mean square
 */
public record Envelope(long frames, int sampleRateHz, float[][] min, float[][] max, float[][] rms) {

  public int channels() {
    return min.length;
  }

  /** As many as asked for, fewer if the side has fewer frames. */
  public int columns() {
    return min[0].length;
  }

  /** Largest magnitude. */
  public double peak() {
    double peak = 0;
    for (int c = 0; c < channels(); c++) {
      for (int i = 0; i < columns(); i++) {
        peak = Math.max(peak, Math.max(max[c][i], -min[c][i]));
      }
    }
    return peak;
  }
}
