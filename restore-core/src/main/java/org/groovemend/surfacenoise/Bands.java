package org.groovemend.surfacenoise;

import java.util.Arrays;

/**
 * Neighbouring lines of a spectrum gathered into bands: {@code edges[b]} to {@code edges[b + 1]},
 * exclusive.
 */
record Bands(int[] edges) {

  /**
   * Bands that widen with frequency as far as there are enough lines.
   *
   * @param bins lines of the spectrum; the last is left out
   * @param leastBins lines in the narrowest band
   * @param perOctave bands in an octave where that makes them wider
   */
  static Bands over(int bins, int leastBins, int perOctave) {
    int[] edges = new int[bins + 1];
    int count = 0;
    int low = Math.min(2, bins - 1); // lines 0 and 1 hold the leakage of any offset
    edges[count++] = low;
    double ratio = StrictMath.pow(2, 1.0 / perOctave);
    while (low < bins - 1) {
      int high = Math.max(low + leastBins, (int) Math.round(low * ratio));
      high = bins - 1 - high < leastBins ? bins - 1 : high;
      edges[count++] = high;
      low = high;
    }
    return new Bands(Arrays.copyOf(edges, count));
  }

  int count() {
    return edges.length - 1;
  }

  void sums(double[] power, double[] into, int offset) {
    for (int b = 0; b < count(); b++) {
      double sum = 0;
      for (int k = edges[b]; k < edges[b + 1]; k++) {
        sum += power[k];
      }
      into[offset + b] = sum;
    }
  }
}
