package org.groovemend.surfacenoise;

/**
 * How the groove's noise swings once and twice a turn of the disc, along the side: knots at even
 * distances, between which amplitude and phase move evenly.
 *
 * @param turnSeconds time of one turn
 * @param explained share of the wavering of the level that turning at this speed accounts for
 * @param explainedElsewhere most that any other speed accounts for
 * @param firstKnotSeconds time of the first knot
 * @param knotSeconds time from knot to knot
 * @param harmonics [knot][4] natural logarithm of the noise power: cosine and sine once a turn,
 *     cosine and sine twice a turn, phase 0 at the first sample of the side
 */
public record TurnSwing(
    double turnSeconds,
    double explained,
    double explainedElsewhere,
    double firstKnotSeconds,
    double knotSeconds,
    double[][] harmonics) {

  /** Furthest from the mean, natural logarithm of power: 9 dB. */
  private static final double MOST = 9 * 0.23025850929940458;

  /** Natural logarithm of the noise power at a time, over that of the mean level of a turn. */
  double logAt(double seconds) {
    double at = (seconds - firstKnotSeconds) / knotSeconds;
    int last = harmonics.length - 1;
    int low = (int) Math.max(0, Math.min(last, Math.floor(at)));
    int high = Math.min(last, low + 1);
    double t = Math.max(0, Math.min(1, at - low));
    double angle = 2 * Math.PI * (seconds / turnSeconds - Math.floor(seconds / turnSeconds));
    double c = StrictMath.cos(angle);
    double s = StrictMath.sin(angle);
    double[] a = harmonics[low];
    double[] b = harmonics[high];
    double sum =
        (a[0] + t * (b[0] - a[0])) * c
            + (a[1] + t * (b[1] - a[1])) * s
            + (a[2] + t * (b[2] - a[2])) * (c * c - s * s)
            + (a[3] + t * (b[3] - a[3])) * (2 * s * c);
    return Math.max(-MOST, Math.min(MOST, sum));
  }

  /** Mean power over a stretch, over that of the mean level of a turn. */
  double meanPower(double fromSeconds, double toSeconds) {
    int steps = (int) Math.max(8, Math.ceil((toSeconds - fromSeconds) / turnSeconds * 64));
    double sum = 0;
    for (int i = 0; i < steps; i++) {
      sum += StrictMath.exp(logAt(fromSeconds + (i + 0.5) / steps * (toSeconds - fromSeconds)));
    }
    return sum / steps;
  }

  /** Mean over the knots of how far the level swings once a turn, from least to most, dB. */
  public double swingDb() {
    double sum = 0;
    for (double[] h : harmonics) {
      sum += Math.sqrt(h[0] * h[0] + h[1] * h[1]);
    }
    return 2 * 10 / StrictMath.log(10) * sum / harmonics.length;
  }
}
