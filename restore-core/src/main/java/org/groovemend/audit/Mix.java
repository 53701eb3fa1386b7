package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.stage.RangeReader;

/**
 * Which of the original's channels a channel of the derivative is made of.
 *
 * @param kind what it is in words
 * @param weights by channel of the original, without the gain
 * @param gain weighted median of the gain of single windows; negative if upside down
 * @param misfit median share of a window's power that is not explained so
 */
record Mix(Kind kind, double[] weights, double gain, double misfit) {
  private static final int MOST_WINDOWS = 240;
  private static final double SECONDS = 0.15;

  /** A plainer one stays unless another leaves less than this share of what it leaves. */
  private static final double BETTER = 0.5;

  private static final double MUCH_BETTER = 0.2;

  /** Share of the power that any mixture leaves of unlike sound. */
  private static final double LEAST = 1e-9;

  enum Kind {
    SAME("the same channel"),
    OTHER("the other channel"),
    MIDDLE("half the sum of both channels"),
    DIFFERENCE("half the difference of both channels"),
    BOTH("a mixture of both channels"),
    ONE("the original's one channel");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  Mix {
    weights = weights.clone();
  }

  /** The mixture at one frame's values of all channels, over {@code count} frames. */
  void take(double[][] x, int count, double[] out) {
    for (int i = 0; i < count; i++) {
      out[i] = weights[0] * x[0][i];
    }
    if (x.length == 2 && weights[1] != 0) {
      for (int i = 0; i < count; i++) {
        out[i] += weights[1] * x[1][i];
      }
    }
  }

  /** The mixtures of all channels of the derivative. */
  static Mix[] of(AlignedSide original, RangeReader derivative) throws IOException {
    int out = derivative.format().channels();
    int in = original.format().channels();
    int length = (int) Math.round(SECONDS * derivative.format().sampleRateHz());
    long[] places = Windows.spread(original.stretches(), length, MOST_WINDOWS);
    double[][] x = new double[in][length];
    double[][] y = new double[out][length];
    // per window and channel: x0x0 x0x1 x1x1 yx0 yx1 yy
    double[][][] sums = new double[out][places.length][];
    for (int w = 0; w < places.length; w++) {
      original.read(places[w], length, x);
      derivative.read(places[w], length, y);
      for (int c = 0; c < out; c++) {
        sums[c][w] = sums(x, y[c], length);
      }
    }
    Mix[] mixes = new Mix[out];
    for (int c = 0; c < out; c++) {
      mixes[c] = best(sums[c], in, c);
    }
    return mixes;
  }

  private static double[] sums(double[][] x, double[] y, int n) {
    double[] s = new double[6];
    double[] a = x[0];
    double[] b = x[x.length - 1];
    for (int i = 0; i < n; i++) {
      s[0] += a[i] * a[i];
      s[1] += a[i] * b[i];
      s[2] += b[i] * b[i];
      s[3] += y[i] * a[i];
      s[4] += y[i] * b[i];
      s[5] += y[i] * y[i];
    }
    return s;
  }

  private static Mix best(double[][] sums, int in, int channel) {
    if (in == 1) {
      return fitted(Kind.ONE, new double[] {1}, sums);
    }
    double[] same = channel == 0 ? new double[] {1, 0} : new double[] {0, 1};
    double[] other = channel == 0 ? new double[] {0, 1} : new double[] {1, 0};
    Mix best = fitted(Kind.SAME, same, sums);
    for (Mix next :
        new Mix[] {
          fitted(Kind.OTHER, other, sums),
          fitted(Kind.MIDDLE, new double[] {0.5, 0.5}, sums),
          fitted(Kind.DIFFERENCE, new double[] {0.5, -0.5}, sums)
        }) {
      if (next.misfit < BETTER * best.misfit && best.misfit > LEAST) {
        best = next;
      }
    }
    Mix both = fitted(Kind.BOTH, leastSquares(sums), sums);
    return both.misfit < MUCH_BETTER * best.misfit && best.misfit > LEAST ? both : best;
  }

  private static double[] leastSquares(double[][] windows) {
    double[] s = new double[6];
    for (double[] w : windows) {
      if (w[5] > 0) {
        for (int i = 0; i < s.length; i++) {
          s[i] += w[i] / w[5];
        }
      }
    }
    double det = s[0] * s[2] - s[1] * s[1];
    if (!(det > 1e-9 * s[0] * s[2])) {
      return new double[] {1, 0};
    }
    return new double[] {(s[3] * s[2] - s[4] * s[1]) / det, (s[4] * s[0] - s[3] * s[1]) / det};
  }

  private static Mix fitted(Kind kind, double[] w, double[][] windows) {
    double second = w.length > 1 ? w[1] : 0;
    double[] gains = new double[windows.length];
    double[] powers = new double[windows.length];
    double[] misfits = new double[windows.length];
    int told = 0;
    for (double[] s : windows) {
      double xx = w[0] * w[0] * s[0] + 2 * w[0] * second * s[1] + second * second * s[2];
      double xy = w[0] * s[3] + second * s[4];
      if (xx > 0 && s[5] > 0) {
        gains[told] = xy / xx;
        powers[told] = xx;
        misfits[told] = Math.max(0, 1 - xy * xy / (xx * s[5]));
        told++;
      }
    }
    if (told == 0) {
      return new Mix(kind, w, 0, 1);
    }
    double[] sorted = Arrays.copyOf(misfits, told);
    Arrays.sort(sorted);
    return new Mix(kind, w, median(gains, powers, told), sorted[told / 2]);
  }

  /** The value below which half the weight lies. */
  static double median(double[] values, double[] weights, int count) {
    Integer[] order = new Integer[count];
    double total = 0;
    for (int i = 0; i < count; i++) {
      order[i] = i;
      total += weights[i];
    }
    Arrays.sort(order, (i, j) -> Double.compare(values[i], values[j]));
    double sum = 0;
    for (int i : order) {
      sum += weights[i];
      if (sum >= total / 2) {
        return values[i];
      }
    }
    return 0;
  }
}
