package org.groovemend.thump;

/**
 * A thump as it was found.
 *
 * @param reference instant to which the onset of the shape refers
 * @param shape its ring
 * @param cos amplitude of the cosine part in each channel
 * @param sin amplitude of the sine part in each channel
 * @param remainderStart instant of index 0 of the remainder
 * @param remainder of each channel, at the side's instants
 * @param findings why it is believed
 */
record Thump(
    long reference,
    ThumpShape shape,
    double[] cos,
    double[] sin,
    long remainderStart,
    double[][] remainder,
    Findings findings) {

  /**
   * What speaks for a thump.
   *
   * @param drop drop in whitened energy of the low band when it is taken out
   * @param energy whitened energy before
   * @param count values compared
   */
  record Findings(double drop, double energy, int count) {
    /** Share of the energy that it explains. */
    double share() {
      return energy > 0 ? drop / energy : 0;
    }
  }

  /** What is filled for certain before the onset, in seconds. */
  private static final double FRONT_BEFORE = 0.001;

  /** Decays after which a ring is over. */
  private static final double DECAYS = 5.5;

  /** Share of the length over which it fades out. */
  private static final double FADED = 0.2;

  /** Frame at which it begins. */
  long onsetFrame(ThumpGeometry g) {
    return Math.round((reference + shape.onset()) * g.step());
  }

  /** First frame that is filled for certain. */
  long frontFrame(ThumpGeometry g) {
    return Math.max(0, onsetFrame(g) - Math.round(FRONT_BEFORE * g.rate()));
  }

  /** Seconds that it rings. */
  double seconds(ThumpGeometry g) {
    return Math.min(g.tail() / g.perSecond(), DECAYS * shape.decaySeconds());
  }

  double amplitude(int channel) {
    return Math.sqrt(cos[channel] * cos[channel] + sin[channel] * sin[channel]);
  }

  /** Share of its energy in the difference of the channels: vertical movement of the stylus. */
  double vertical() {
    if (cos.length < 2) {
      return 0;
    }
    double mid = square(cos[0] + cos[1]) + square(sin[0] + sin[1]);
    double side = square(cos[0] - cos[1]) + square(sin[0] - sin[1]);
    return mid + side > 0 ? side / (mid + side) : 0;
  }

  private static double square(double v) {
    return v * v;
  }

  /** Writes one channel of it at frames from its onset on. */
  void write(ThumpGeometry g, int channel, int frames, double[] out, double[] work) {
    long onset = onsetFrame(g);
    shape.write(
        (onset - (reference + shape.onset()) * g.step()) / g.rate(),
        1.0 / g.rate(),
        0,
        frames,
        out,
        work);
    double total = seconds(g) * g.rate();
    double[] r = remainder[channel];
    for (int i = 0; i < frames; i++) {
      double v = cos[channel] * out[i] + sin[channel] * work[i];
      double at = (double) (onset + i) / g.step() - remainderStart;
      v += interpolate(r, at);
      double left = (1 - i / total) / FADED;
      out[i] = left >= 1 ? v : left <= 0 ? 0 : v * left * left * (3 - 2 * left);
    }
  }

  /** Adds it, or with {@code sign} -1 subtracts it, at instants. */
  void add(ThumpGeometry g, double[][] low, long first, int length, double sign) {
    int from = (int) Math.max(0, (long) Math.ceil(reference + shape.onset()) - first);
    int n = Math.min(length - from, g.judged());
    if (n <= 0) {
      return;
    }
    double spacing = 1 / g.perSecond();
    double[] c = new double[n];
    double[] s = new double[n];
    shape.write((first + from - reference - shape.onset()) * spacing, spacing, 0, n, c, s);
    for (int channel = 0; channel < low.length; channel++) {
      for (int i = 0; i < n; i++) {
        long m = first + from + i - remainderStart;
        double[] r = remainder[channel];
        double extra = m >= 0 && m < r.length ? r[(int) m] : 0;
        low[channel][from + i] += sign * (cos[channel] * c[i] + sin[channel] * s[i] + extra);
      }
    }
  }

  /** Catmull-Rom: the remainder is slow against its instants. */
  private static double interpolate(double[] r, double at) {
    int i = (int) Math.floor(at);
    double f = at - i;
    double a = value(r, i - 1);
    double b = value(r, i);
    double c = value(r, i + 1);
    double d = value(r, i + 2);
    return b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)));
  }

  private static double value(double[] r, int i) {
    return i >= 0 && i < r.length ? r[i] : 0;
  }
}
