package org.groovemend.walls;

/**
 * Octaves about 31.25 Hz times powers of two, up to half the sampling rate.
 *
 * @param binHertz distance of the lines of a spectrum
 * @param bins lines, the first at 0 Hz
 * @param count bands
 */
record OctaveBands(double binHertz, int bins, int count) {
  static final double LOWEST_CENTRE_HERTZ = 31.25;

  static OctaveBands of(int rate, int frameLength) {
    double nyquist = rate / 2.0;
    int count = 1;
    while (lowEdge(count) < 0.8 * nyquist) {
      count++;
    }
    return new OctaveBands((double) rate / frameLength, frameLength / 2 + 1, count);
  }

  static double centreHertz(int band) {
    return Math.scalb(LOWEST_CENTRE_HERTZ, band);
  }

  private static double lowEdge(int band) {
    return centreHertz(band) / Math.sqrt(2);
  }

  /** First line of a band; {@code band} may be {@link #count}, which gives the end of the last. */
  int firstBin(int band) {
    return band == count
        ? bins - 1
        : (int) Math.max(1, Math.min(bins - 1, Math.ceil(lowEdge(band) / binHertz)));
  }

  /** The band whose centre lies at or below a line, for interpolation between centres. */
  int below(int bin) {
    int band = 0;
    while (band < count - 1 && centreHertz(band + 1) <= bin * binHertz) {
      band++;
    }
    return band;
  }

  /** How far a line lies from the centre of {@link #below} to the next, in octaves, 0 to 1. */
  double share(int bin) {
    int band = below(bin);
    if (band == count - 1 || bin == 0) {
      return 0;
    }
    double octaves = StrictMath.log(bin * binHertz / centreHertz(band)) / StrictMath.log(2);
    return Math.max(0, Math.min(1, octaves));
  }

  /** Value at a line, from values at the middles of the octaves; beyond them that of the last. */
  double between(double[] values, int bin) {
    int b = below(bin);
    double share = share(bin);
    return share == 0 ? values[b] : values[b] + share * (values[b + 1] - values[b]);
  }
}
