package org.groovemend.hum;

import java.util.List;

/**
 * One family as it is taken out.
 *
 * @param track phase of the fundamental; knots every {@code hop} frames
 * @param lines what is subtracted, at the same knots
 */
record HumModel(PhaseTrack track, List<Line> lines) {

  /**
   * @param channel 0 based
   * @param harmonic 1 for the fundamental
   * @param re real part of the complex amplitude at each knot, full scale 1.0
   * @param im imaginary part
   */
  record Line(int channel, int harmonic, double[] re, double[] im) {

    /**
     * Less than the estimate by its standard error, so that what the estimate took of the
     * neighbourhood's noise is left as that much of the line; nothing where the line plainly is not
     * for two moments or more. One moment without it is music that cancels it: hum does not pause.
     */
    static Line cautious(int channel, int harmonic, Smoothed s, LineSeries measured) {
      double[] re = s.re().clone();
      double[] im = s.im().clone();
      for (int j = 0; j < re.length; j++) {
        double power = s.power(j);
        boolean beside =
            (j > 0 && s.missing(measured, j - 1))
                || (j + 1 < re.length && s.missing(measured, j + 1));
        double gain = Math.max(0, 1 - Math.sqrt(s.variance()[j] / power));
        if (!(power > 0) || (s.missing(measured, j) && beside)) {
          gain = 0;
        }
        re[j] *= gain;
        im[j] *= gain;
      }
      return new Line(channel, harmonic, re, im);
    }

    double power(int j) {
      return re[j] * re[j] + im[j] * im[j];
    }
  }

  int highest() {
    return lines.stream().mapToInt(Line::harmonic).max().orElse(0);
  }
}
