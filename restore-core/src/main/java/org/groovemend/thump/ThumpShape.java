package org.groovemend.thump;

/**
 * A ring that falls in pitch and in amplitude.
 *
 * @param startHz frequency at the onset
 * @param endHz frequency it falls to
 * @param glideSeconds time constant of the fall in frequency
 * @param decaySeconds time constant of the fall in amplitude
 * @param onset instant at which it starts, in instants after a reference, fraction included
 */
record ThumpShape(
    double startHz, double endHz, double glideSeconds, double decaySeconds, double onset) {

  /** Number of values that are sought by {@link ThumpFit}. */
  static final int VALUES = 5;

  private static final double[] LEAST = {18, 6, 0.01, 0.008};
  private static final double[] MOST = {200, 150, 0.4, 0.25};

  /** Moves one value by {@code amount}: a share of it, or for the onset a number of instants. */
  ThumpShape moved(double[] by, double most) {
    double[] v = {startHz, endHz, glideSeconds, decaySeconds};
    for (int i = 0; i < v.length; i++) {
      double share = Math.max(-0.5, Math.min(0.5, by[i]));
      v[i] = Math.max(LEAST[i], Math.min(MOST[i], v[i] * StrictMath.exp(share)));
    }
    v[1] = Math.min(v[1], v[0]);
    double shift = Math.max(-1, Math.min(1, by[4]));
    double at = Math.max(-most, Math.min(most, onset + shift));
    return new ThumpShape(v[0], v[1], v[2], v[3], at);
  }

  /**
   * The same ring begun earlier, its frequency and phase followed back, or with a negative number
   * later.
   */
  ThumpShape earlier(double instants, double spacing) {
    double back = StrictMath.exp(instants * spacing / glideSeconds);
    double start = endHz + (startHz - endHz) * back;
    return new ThumpShape(
        Math.max(endHz, Math.min(MOST[0], start)),
        endHz,
        glideSeconds,
        decaySeconds,
        onset - instants);
  }

  /** Frequency at a time after the onset. */
  double frequency(double seconds) {
    return endHz + (startHz - endHz) * StrictMath.exp(-seconds / glideSeconds);
  }

  /** True if a value of the shape, its onset apart, is as far as it may go on the musical side. */
  boolean extreme() {
    return decaySeconds < 1.3 * LEAST[3] || startHz > 0.9 * MOST[0];
  }

  /**
   * Cosine and sine parts from the onset on, 0 before.
   *
   * @param spacing seconds from one sample to the next
   * @param firstSeconds time of index 0 after the onset
   * @param riseSeconds time constant of a soft beginning, 0 for none
   */
  void write(
      double firstSeconds, double spacing, double riseSeconds, int n, double[] cos, double[] sin) {
    int i = 0;
    for (; i < n && firstSeconds + i * spacing < 0; i++) {
      cos[i] = 0;
      sin[i] = 0;
    }
    if (i == n) {
      return;
    }
    double t = firstSeconds + i * spacing;
    double glide = StrictMath.exp(-t / glideSeconds);
    double glideStep = StrictMath.exp(-spacing / glideSeconds);
    double sweep = 2 * Math.PI * (startHz - endHz) * glideSeconds;
    double steady = 2 * Math.PI * endHz * spacing;
    double phase = 2 * Math.PI * endHz * t + sweep * (1 - glide);
    double size = StrictMath.exp(-t / decaySeconds);
    double sizeStep = StrictMath.exp(-spacing / decaySeconds);
    double soft = riseSeconds > 0 ? StrictMath.exp(-t / riseSeconds) : 0;
    double softStep = riseSeconds > 0 ? StrictMath.exp(-spacing / riseSeconds) : 0;
    double re = StrictMath.cos(phase);
    double im = StrictMath.sin(phase);
    for (; i < n; i++) {
      double now = size * (1 - soft);
      cos[i] = now * re;
      sin[i] = now * im;
      // a turn of less than 0.7 rad by its power series, which leaves 1e-13
      double d = steady + sweep * (1 - glideStep) * glide;
      double e = d * d;
      double s = d * (1 - e / 6 * (1 - e / 20 * (1 - e / 42 * (1 - e / 72 * (1 - e / 110)))));
      double c = 1 - e / 2 * (1 - e / 12 * (1 - e / 30 * (1 - e / 56 * (1 - e / 90))));
      double turned = re * c - im * s;
      im = re * s + im * c;
      re = turned;
      glide *= glideStep;
      size *= sizeStep;
      soft *= softStep;
    }
  }
}
