package org.groovemend.thump;

/**
 * What whitening leaves of a waveform's energy, for waveforms known beforehand: {@code |A s|^2 =
 * sum b[l] r[l]} with the correlations of the filter and of the waveform, so that the waveform need
 * not be filtered for each filter.
 */
final class RingPower {
  private static final int LAGS = ThumpGeometry.ORDER + 1;

  private final double[] cosCos = new double[LAGS];
  private final double[] cosSin = new double[LAGS];
  private final double[] sinSin = new double[LAGS];

  /** Correlations of the two parts of a ring, of {@code n} samples. */
  RingPower(double[] cos, double[] sin, int n) {
    for (int l = 0; l < LAGS; l++) {
      double twice = l == 0 ? 1 : 2;
      int m = Math.max(0, n - l);
      cosCos[l] = twice * PlaceData.dot(cos, 0, cos, l, m);
      sinSin[l] = twice * PlaceData.dot(sin, 0, sin, l, m);
      double forth = PlaceData.dot(cos, 0, sin, l, m);
      cosSin[l] = l == 0 ? forth : forth + PlaceData.dot(cos, l, sin, 0, m);
    }
  }

  /**
   * Prepares drops under one filter.
   *
   * @param power correlation of the whitening filter, scale included
   * @param h receives weights such that the drop for correlations p and q of the two parts with the
   *     matched data is {@code h[0] p p + h[1] p q + h[2] q q}
   * @return false if the two parts cannot be told apart
   */
  boolean weights(double[] power, double[] h) {
    double cc = 0;
    double cs = 0;
    double ss = 0;
    for (int l = 0; l < LAGS; l++) {
      cc += power[l] * cosCos[l];
      cs += power[l] * cosSin[l];
      ss += power[l] * sinSin[l];
    }
    double determinant = cc * ss - cs * cs;
    if (!(determinant > 1e-9 * cc * ss)) {
      return false;
    }
    h[0] = ss / determinant;
    h[1] = -2 * cs / determinant;
    h[2] = cc / determinant;
    return true;
  }
}
