package org.groovemend.plays;

/**
 * Third octaves over the lines of a transform (base ten, IEC 61260-1: 1000 Hz times 10^(n/10)); the
 * first takes all below it, the last all above.
 */
final class ThirdOctaves {
  private static final int LOWEST = -12;

  private final int length;
  private final int rate;
  private final int[] firstBin;

  /**
   * @param length samples of a frame
   */
  ThirdOctaves(int rate, int length) {
    this.rate = rate;
    this.length = length;
    int count = 0;
    while (edge(count) < rate / 2.0) {
      count++;
    }
    firstBin = new int[count + 1];
    firstBin[0] = 1;
    for (int b = 1; b < count; b++) {
      firstBin[b] = (int) Math.ceil(edge(b - 1) * length / rate);
    }
    firstBin[count] = length / 2;
  }

  /** Upper edge of a band. */
  private static double edge(int band) {
    return centre(band) * StrictMath.pow(10, 0.05);
  }

  /** Nominal centre, Hz. */
  static double centre(int band) {
    return 1000 * StrictMath.pow(10, (LOWEST + band) / 10.0);
  }

  int count() {
    return firstBin.length - 1;
  }

  int firstBin(int band) {
    return firstBin[band];
  }

  /** Values of the bands spread over the lines, straight in the logarithm of frequency. */
  void spread(double[] byBand, double[] byLine) {
    int bands = count();
    int b = 0;
    for (int k = 0; k <= length / 2; k++) {
      double hertz = Math.max(1, (double) k * rate / length);
      while (b < bands - 2 && hertz > centre(b + 1)) {
        b++;
      }
      double x = StrictMath.log(hertz / centre(b)) / StrictMath.log(centre(b + 1) / centre(b));
      x = Math.max(0, Math.min(1, x));
      byLine[k] = byBand[b] + x * (byBand[b + 1] - byBand[b]);
    }
  }
}
