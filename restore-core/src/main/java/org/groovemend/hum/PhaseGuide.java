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
   * @param first whether the track may still be off as a whole
   * @return null if no line speaks for hum
   */
  static PhaseTrack corrected(PhaseTrack track, LineSeries[][] series, boolean first) {
    int knots = track.cycles().length;
    LineEvidence[][] evidence = new LineEvidence[series.length][series[0].length];
    boolean any = false;
    for (int c = 0; c < series.length; c++) {
      for (int k = 0; k < series[c].length; k++) {
        LineEvidence e = series[c][k] == null ? null : LineEvidence.of(series[c][k]);
        if (e != null && e.decibans() > 0) {
          evidence[c][k] = e;
          any = true;
        }
      }
    }
    if (!any) {
      return null;
    }
    double turning = first ? CommonTurning.of(series, evidence) : 0;
    double[] sum = new double[knots];
    double[] weights = new double[knots];
    for (int k = 0; k < series[0].length; k++) {
      // the channels of a line first: swapped they give the same bits
      double[] sumOfLine = new double[knots];
      double[] weightsOfLine = new double[knots];
      for (int c = 0; c < series.length; c++) {
        LineEvidence e = evidence[c][k];
        if (e != null) {
          LineSeries line = series[c][k].turnedBack((k + 1) * turning);
          Smoothed s = Smoothed.of(line, e.trust(), e.level(), FREEST, RELUCTANCE);
          add(line, e.trust(), s, k + 1, sumOfLine, weightsOfLine);
        }
      }
      for (int j = 0; j < knots; j++) {
        sum[j] += sumOfLine[j];
        weights[j] += weightsOfLine[j];
      }
    }
    double[] variance = new double[knots];
    for (int j = 0; j < knots; j++) {
      sum[j] = track.cycles()[j] + turning * j + (weights[j] > 0 ? sum[j] / weights[j] : 0);
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
