package org.groovemend.surfacenoise;

/**
 * How likely it is that a line holds groove noise alone, from what its neighbours show: the
 * a-priori ratio, averaged over the three lines around it and over a broad band, each turned into a
 * probability of sound by a ramp; sound is likely where both say so (I. Cohen and B. Berdugo,
 * Signal Processing 81, 2001, from memory, with a third average over the frame and ramps over
 * decibels there). A single line of noise that stands out by chance then stays down among its like,
 * which is what keeps the residue from twittering at great reductions.
 */
final class SoundAbsence {

  /** A-priori ratios, as power ratios, that count as no sound and as sound for certain. */
  private static final double NONE = 0.02;

  private static final double CERTAIN = 0.12;

  private static final double MOST = 0.95;
  private static final int NEAR = 1;
  private static final int BROAD_SHARE = 24;

  private static final int STEPS_PER_UNIT = 128;
  private static final int RANGE = 16;
  private static final double[] DECAY = new double[STEPS_PER_UNIT * RANGE + 2];

  static {
    for (int i = 0; i < DECAY.length; i++) {
      DECAY[i] = StrictMath.exp(-i / (double) STEPS_PER_UNIT);
    }
  }

  private final double[] sums;
  private final double[] absence;

  SoundAbsence(int bins) {
    this.sums = new double[bins + 1];
    this.absence = new double[bins];
  }

  /**
   * The probabilities for a frame.
   *
   * @param prior a-priori ratio of each line
   * @return [line] 0 to {@value #MOST}; the object's own, lasts until the next call
   */
  double[] of(double[] prior) {
    int n = absence.length;
    double sum = 0;
    for (int k = 0; k < n; k++) {
      sum += prior[k];
      sums[k + 1] = sum;
    }
    int broad = Math.max(2, n / BROAD_SHARE);
    for (int k = 0; k < n; k++) {
      absence[k] = Math.min(MOST, 1 - ramp(mean(k, NEAR)) * ramp(mean(k, broad)));
    }
    return absence;
  }

  private double mean(int k, int reach) {
    int low = Math.max(0, k - reach);
    int high = Math.min(absence.length, k + reach + 1);
    return (sums[high] - sums[low]) / (high - low);
  }

  private static double ramp(double ratio) {
    return Math.max(0, Math.min(1, (ratio - NONE) / (CERTAIN - NONE)));
  }

  /**
   * Probability of sound in a line once its power is known, for Gaussian noise and sound: 1 / (1 +
   * q/(1 - q) (1 + xi) exp(-v)).
   *
   * @param absence q, 0 to below 1
   * @param xi a-priori ratio
   * @param v xi / (1 + xi) times the a-posteriori ratio
   */
  static double presence(double absence, double xi, double v) {
    double x = v * STEPS_PER_UNIT;
    int i = (int) x;
    if (i >= STEPS_PER_UNIT * RANGE) {
      return 1;
    }
    double decay = DECAY[i] + (x - i) * (DECAY[i + 1] - DECAY[i]);
    double sound = 1 - absence;
    return sound / (sound + absence * (1 + xi) * decay);
  }
}
