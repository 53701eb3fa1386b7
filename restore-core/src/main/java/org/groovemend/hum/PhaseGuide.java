package org.groovemend.hum;

/**
 * Corrects a track by the common turning of its lines' phases: each line's phases, unwrapped along
 * its smoothed ones, are averaged with their inverse variances and smoothed as those of a frequency
 * that wanders.
 */
final class PhaseGuide {
  /** Largest step of an amplitude while the track is still blurred, share of its square. */
  private static final double FREEST = 0.1;

  /** Phases unwrapped along an amplitude that follows noise would be those of the noise. */
  private static final double RELUCTANCE = 1;

  private PhaseGuide() {}

  /**
   * The track as the lines tell it.
   *
   * @param series measured along the track, by channel and line
   * @return null if no line speaks for hum
   */
  static PhaseTrack corrected(PhaseTrack track, LineSeries[][] series) {
    int knots = track.cycles().length;
    double[] sum = new double[knots];
    double[] weights = new double[knots];
    boolean any = false;
    for (LineSeries[] channel : series) {
      for (int k = 0; k < channel.length; k++) {
        if (channel[k] == null) {
          continue;
        }
        LineEvidence evidence = LineEvidence.of(channel[k]);
        if (evidence == null || evidence.decibans() <= 0) {
          continue;
        }
        any = true;
        Smoothed s =
            Smoothed.of(channel[k], evidence.trust(), evidence.level(), FREEST, RELUCTANCE);
        add(channel[k], evidence.trust(), s, k + 1, sum, weights);
      }
    }
    if (!any) {
      return null;
    }
    double[] variance = new double[knots];
    for (int j = 0; j < knots; j++) {
      sum[j] = track.cycles()[j] + (weights[j] > 0 ? sum[j] / weights[j] : 0);
      variance[j] = 1 / weights[j];
    }
    return new PhaseTrack(SteadyPhase.of(sum, variance), track.hop());
  }

  /** Adds the measured phases, unwrapped along the smoothed ones, with their inverse variances. */
  private static void add(
      LineSeries line, double[] trust, Smoothed s, int k, double[] sum, double[] weights) {
    int knots = line.knots();
    double[] phase = new double[knots];
    double[] weight = new double[knots];
    double mean = 0;
    double total = 0;
    double smooth = 0;
    for (int j = 0; j < knots; j++) {
      if (j > 0) {
        double re = s.re()[j] * s.re()[j - 1] + s.im()[j] * s.im()[j - 1];
        double im = s.im()[j] * s.re()[j - 1] - s.re()[j] * s.im()[j - 1];
        smooth += StrictMath.atan2(im, re);
      }
      double re = line.re()[j] * s.re()[j] + line.im()[j] * s.im()[j];
      double im = line.im()[j] * s.re()[j] - line.re()[j] * s.im()[j];
      phase[j] = (smooth + StrictMath.atan2(im, re)) / (2 * Math.PI * k);
      double cycles = 2 * Math.PI * k;
      weight[j] =
          2 * cycles * cycles * trust[j] * s.power(j) / (LineSeries.SHARED * line.floor()[j]);
      mean += weight[j] * phase[j];
      total += weight[j];
    }
    if (!(total > 0)) {
      return;
    }
    for (int j = 0; j < knots; j++) {
      sum[j] += weight[j] * (phase[j] - mean / total);
      weights[j] += weight[j];
    }
  }
}
