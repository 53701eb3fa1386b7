package org.groovemend.surfacenoise;

import org.groovemend.signal.special.ExponentialIntegral;

/**
 * Follows the common level of the groove noise from frame to frame, as the disc turns and as wear
 * changes, through the music.
 *
 * <p>Statistic of a frame and band: mean of 1/(1 + r), r = power of a line over the groove noise. A
 * line of music, however loud, adds nothing, so a band with some music in it hardly moves. For
 * groove noise at m times the groove noise r is exponential with mean m and the expectation is
 * exp(1/m) E1(1/m) / m, which is inverted by table. The quietest band of the spectrum, smoothed
 * over about a tenth of a second, gives the level; if even that one is far above the groove noise,
 * it is music and tells nothing.
 */
final class LevelTracker {

  private static final int TABLE = 256;
  private static final double LOW_LOG = -3;
  private static final double HIGH_LOG = 3;
  private static final double[] EXPECTED = new double[TABLE + 1];
  private static final double[] LEVEL = new double[TABLE + 1];

  static {
    for (int i = 0; i <= TABLE; i++) {
      double m = StrictMath.exp(LOW_LOG + (HIGH_LOG - LOW_LOG) * i / TABLE);
      LEVEL[i] = m;
      EXPECTED[i] = ExponentialIntegral.scaledE1(1 / m) / m;
    }
  }

  private final Bands bands;
  private final double range;

  LevelTracker(int bins, double rangeDb) {
    this.bands = Bands.over(bins, Math.max(8, bins / 64), 1);
    this.range = StrictMath.pow(10, rangeDb / 10);
  }

  int bands() {
    return bands.count();
  }

  /**
   * Adds the statistic of one channel to {@code into}, one sum per band; {@code weight} is 1 over
   * the number of channels.
   */
  void add(double[] ratio, double weight, double[] into) {
    int[] edges = bands.edges();
    for (int b = 0; b < into.length; b++) {
      double sum = 0;
      for (int k = edges[b]; k < edges[b + 1]; k++) {
        sum += 1 / (1 + ratio[k]);
      }
      into[b] += weight * sum / (edges[b + 1] - edges[b]);
    }
  }

  /**
   * Level over the groove noise, within the range either way, from a smoothed statistic per band.
   */
  double level(double[] statistic) {
    double least = quietest(statistic);
    if (least <= range) {
      return Math.max(least, 1 / range);
    }
    // fades back to the groove noise's own level as music becomes the likelier explanation
    return Math.max(1, range - (least - range) / range * (range - 1));
  }

  /** Level of the quietest band, within 13 dB either way. */
  static double quietest(double[] statistic) {
    double least = Double.POSITIVE_INFINITY;
    for (double s : statistic) {
      least = Math.min(least, levelOf(s));
    }
    return least;
  }

  /** Inverse of the expectation, which falls as the level rises. */
  static double levelOf(double statistic) {
    int low = 0;
    int high = TABLE;
    if (statistic >= EXPECTED[low]) {
      return LEVEL[low];
    }
    if (statistic <= EXPECTED[high]) {
      return LEVEL[high];
    }
    while (high - low > 1) {
      int middle = (low + high) >>> 1;
      if (EXPECTED[middle] >= statistic) {
        low = middle;
      } else {
        high = middle;
      }
    }
    double t = (EXPECTED[low] - statistic) / (EXPECTED[low] - EXPECTED[high]);
    return LEVEL[low] + t * (LEVEL[high] - LEVEL[low]);
  }
}
