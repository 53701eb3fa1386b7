package org.groovemend.report;

/**
 * How many edits begin in each column of time, and how much of it they change, per channel.
 *
 * @param frames length of the side
 * @param sampleRateHz samples a second
 * @param counts {@code [channel][column]}: edits that begin there
 * @param changed {@code [channel][column]}: frames inside edits over frames of the column, 0 to 1;
 *     where edits of several stages overlap each counts, up to 1
 */
public record EditDensity(long frames, int sampleRateHz, int[][] counts, float[][] changed) {

  public int channels() {
    return counts.length;
  }

  public int columns() {
    return counts[0].length;
  }

  public long total() {
    long sum = 0;
    for (int[] channel : counts) {
      for (int count : channel) {
        sum += count;
      }
    }
    return sum;
  }

  public int most() {
    int most = 0;
    for (int[] channel : counts) {
      for (int count : channel) {
        most = Math.max(most, count);
      }
    }
    return most;
  }

  public double largestChangedShare() {
    double most = 0;
    for (float[] channel : changed) {
      for (float share : channel) {
        most = Math.max(most, share);
      }
    }
    return most;
  }
}
