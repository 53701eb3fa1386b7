package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.playback.RecursiveFilter;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;

/**
 * What one click says about how the transfer was made. One instance per thread.
 *
 * <p>Near the click the side is music of an autoregressive model plus a pulse, {@code x = m + B c}:
 * {@code c} are unknown samples of a short gap, and {@code B} leaves them as they are (flat) or
 * passes them through the playback curve. In the prediction error of the model, which is white for
 * the music, both are linear regressions with as many unknowns, and the ratio of what they leave
 * unexplained is that of their likelihoods. Only what follows the gap differs: a tail, whose size
 * the pulse prescribes. The music within the gap is not known, so the model must be long enough to
 * say that it does not jump.
 */
final class CurveEvidence {
  private static final double FIT_SECONDS = 0.06;
  private static final double LEAST_GAP_SECONDS = 0.0001;
  private static final double LONGEST_GAP_SECONDS = 0.0015;
  private static final double PRE_SECONDS = 0.0001;
  private static final double WATCHED_SECONDS = 0.02;
  private static final double LEAST_WATCHED_SECONDS = 0.004;

  /** Keeps the equations solvable on sound of few frequencies; far below 24 bits of music. */
  private static final double WHITE = 1e-9;

  private static final int ORDER_AT_44100 = 320;

  /** The gap: so often the extent that was found, since pulses fade out below the noise. */
  private static final int EXTENTS = 3;

  private final int order;
  private final int fit;
  private final int pre;
  private final int least;
  private final int longest;
  private final int watched;
  private final int leastWatched;
  private final double[] curve;
  private final double[] a;
  private final double[] lags;
  private final double[] sum;
  private final double[] window;
  private final Autocorrelation autocorrelation;
  private final double[] column;
  private final double[] residual;
  private final double[] error;
  private final double[] factor;
  private final double[] right;

  CurveEvidence(RecursiveFilter forward, int rate) {
    order = (int) (ORDER_AT_44100 * Math.max(1.0, rate / 44100.0));
    fit = (int) (FIT_SECONDS * rate);
    pre = (int) Math.ceil(PRE_SECONDS * rate);
    least = (int) (LEAST_GAP_SECONDS * rate);
    longest = (int) (LONGEST_GAP_SECONDS * rate);
    watched = (int) (WATCHED_SECONDS * rate);
    leastWatched = (int) (LEAST_WATCHED_SECONDS * rate);
    int rows = pre + longest + watched;
    double[] impulse = new double[rows];
    impulse[0] = 1;
    curve = new double[rows];
    forward.fromRest(impulse, curve, 0, rows);
    a = new double[order + 1];
    lags = new double[order + 1];
    sum = new double[order + 1];
    autocorrelation = new Autocorrelation(fit, order);
    window = new double[fit];
    for (int i = 0; i < fit; i++) {
      window[i] = 0.5 - 0.5 * StrictMath.cos(2 * Math.PI * (i + 0.5) / fit);
    }
    column = new double[rows];
    residual = new double[rows];
    error = new double[before() + after()];
    factor = new double[(pre + longest) * (pre + longest)];
    right = new double[pre + longest];
  }

  /** Samples needed before the start of a click; {@code x} has no more than both together. */
  int before() {
    return fit + pre + order;
  }

  /** Samples needed after the start of a click. */
  int after() {
    return pre + longest + watched + fit;
  }

  /**
   * Natural logarithm of the likelihood of the curve over that of a flat transfer.
   *
   * @param x samples, the click in them, others about it already filled
   * @param start where the click begins
   * @param length its extent as it was found
   * @param end where another one begins, which cannot be looked past
   * @return positive for the curve; NaN if there is too little to look at
   */
  double weigh(double[] x, int start, int length, int end) {
    int from = start - pre;
    int gap = Math.min(pre + longest, pre + EXTENTS * length + least);
    int rows = Math.min(pre + longest + watched, end - from);
    if (rows < pre + longest + leastWatched || !model(x, from)) {
      return Double.NaN;
    }
    PredictionFilter.residual(a, order, x, from, from + rows, error);
    System.arraycopy(error, from, residual, 0, rows);
    Arrays.fill(column, 0);
    System.arraycopy(a, 0, column, 0, Math.min(rows, order + 1));
    double flat = unexplained(gap, rows);
    for (int n = 0; n < rows; n++) {
      double v = 0;
      for (int k = Math.min(n, order); k >= 0; k--) {
        v += a[k] * curve[n - k];
      }
      column[n] = v;
    }
    double curved = unexplained(gap, rows);
    return flat > 0 && curved > 0 ? 0.5 * rows * StrictMath.log(flat / curved) : Double.NaN;
  }

  /** Model of the music before the click and after its tail. */
  private boolean model(double[] x, int from) {
    autocorrelation.compute(x, from - fit, fit, window, sum);
    autocorrelation.compute(x, from + pre + longest + watched / 2, fit, window, lags);
    for (int k = 0; k <= order; k++) {
      lags[k] += sum[k];
    }
    lags[0] *= 1 + WHITE;
    return LevinsonDurbin.solve(lags, order, a, null) > 0;
  }

  /**
   * Sum of squares that is left when as many shifted columns as the gap has samples are fitted to
   * the prediction error; NaN if they cannot be told apart.
   */
  private double unexplained(int gap, int rows) {
    normalEquations(gap, rows);
    double left = 0;
    for (int n = 0; n < rows; n++) {
      left += residual[n] * residual[n];
    }
    double tiny = 1e-12 * column[0] * column[0];
    for (int j = 0; j < gap; j++) {
      for (int i = 0; i <= j; i++) {
        double v = factor[j * gap + i];
        for (int k = 0; k < i; k++) {
          v -= factor[j * gap + k] * factor[i * gap + k];
        }
        if (i < j) {
          factor[j * gap + i] = v / factor[i * gap + i];
        } else if (v > tiny) {
          factor[j * gap + j] = Math.sqrt(v);
        } else {
          return Double.NaN;
        }
      }
      double z = right[j];
      for (int k = 0; k < j; k++) {
        z -= factor[j * gap + k] * right[k];
      }
      right[j] = z / factor[j * gap + j];
      left -= right[j] * right[j];
    }
    return left;
  }

  /** Lower triangle, by the inner products of columns shifted by one sample less. */
  private void normalEquations(int gap, int rows) {
    for (int i = gap - 1; i >= 0; i--) {
      for (int j = i; j < gap; j++) {
        double v = 0;
        if (j == gap - 1) {
          for (int n = j; n < rows; n++) {
            v += column[n - i] * column[n - j];
          }
        } else {
          v = factor[(j + 1) * gap + i + 1] + column[rows - 1 - i] * column[rows - 1 - j];
        }
        factor[j * gap + i] = v;
      }
      double r = 0;
      for (int n = i; n < rows; n++) {
        r += column[n - i] * residual[n];
      }
      right[i] = r;
    }
  }
}
