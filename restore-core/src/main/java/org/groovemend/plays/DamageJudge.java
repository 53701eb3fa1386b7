package org.groovemend.plays;

import java.util.Arrays;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.Median;

/**
 * Tells which play a place damages. If play x is damaged there, x less what it differs from the
 * others fits the music about it; if it is sound, x itself does.
 *
 * <p>How well it fits is the likelihood of the errors of linear prediction through the place and as
 * far behind as the predictor reaches, Gaussian, their covariance between channels unknown
 * (marginal likelihood under a conjugate prior: a Student distribution). So music that is not
 * foretold, such as an onset, tells little, and what both channels share counts once. Predictors of
 * two lengths, for music that changes and for music that sounds on, from before the place and,
 * backwards, from behind it: the one that foretells best has the say. One instance per thread.
 */
final class DamageJudge {
  /** Orders and lengths of the predictors, seconds. */
  private static final double[][] MODELS = {{2.2e-3, 70e-3}, {11.6e-3, 186e-3}};

  /** Share of a length over which its window falls towards the place. */
  private static final double FALL = 0.2;

  /** Noise is measured over so many orders' length before the place, in parts. */
  private static final double NOISE_SECONDS = 0.06;

  /** Odd, so that one is in the middle. */
  private static final int NOISE_PARTS = 9;

  /** Samples that what is known of the prediction error beforehand counts for. */
  private static final double PRIOR = 32;

  /** Binomial filters of 4, 8, 16 and 32 steps, narrow ones first; each gone at half the rate. */
  private static final double[][] SMOOTH = {binomial(4), binomial(8), binomial(16), binomial(32)};

  /** Share of its energy that a smoothed difference must keep. */
  private static final double KEPT = 0.8;

  /** Share of a difference that must be in the other play too to be called damage of both. */
  private static final double SHARED = 0.3;

  /** Against white noise so far below, as a share of the power, no predictor is singular. */
  private static final double WHITE = 1e-10;

  private final int[] orders = new int[MODELS.length];
  private final int[] lengths = new int[MODELS.length];
  private final double[][] windows = new double[MODELS.length][];
  private final Autocorrelation[] correlations = new Autocorrelation[MODELS.length];
  private final int longest;
  private final double[] r;
  private final double[] a;
  private final int noiseFrames;
  private final double[] parts = new double[NOISE_PARTS];
  private final double[] lengthsOf = new double[NOISE_PARTS];
  private final double[] alongsOf = new double[NOISE_PARTS];
  private final int most;
  private final double[] mean;
  private final double[] smoothed;

  private double[][][] heard = {};
  private double[][][] errors;
  private double[][][] shape;
  private double[][][] shapeErrors;
  private double[][] noiseAlong;
  private double[][] noiseLength;

  /**
   * @param longest frames of the longest place
   */
  DamageJudge(int rate, int longest) {
    this.longest = longest;
    int order = 0;
    int length = 0;
    for (int m = 0; m < MODELS.length; m++) {
      orders[m] = (int) Math.round(MODELS[m][0] * rate);
      lengths[m] = (int) Math.round(MODELS[m][1] * rate);
      windows[m] = window(lengths[m]);
      correlations[m] = new Autocorrelation(lengths[m], orders[m]);
      order = Math.max(order, orders[m]);
      length = Math.max(length, lengths[m]);
    }
    noiseFrames = (int) (NOISE_SECONDS * rate) / NOISE_PARTS * NOISE_PARTS;
    most = length + 2 * longest + order;
    r = new double[order + 1];
    a = new double[order + 1];
    mean = new double[most];
    smoothed = new double[most];
  }

  private static double[] binomial(int steps) {
    double[] taps = new double[steps + 1];
    taps[0] = 1;
    for (int s = 0; s < steps; s++) {
      for (int k = s + 1; k > 0; k--) {
        taps[k] = (taps[k] + taps[k - 1]) / 2;
      }
      taps[0] /= 2;
    }
    return taps;
  }

  /** Rises slowly, falls quickly: what is near the place counts most. */
  private static double[] window(int length) {
    double[] window = new double[length];
    int fall = (int) (FALL * length);
    for (int i = 0; i < length; i++) {
      double u = i < length - fall ? (i + 0.5) / (length - fall) : (length - i - 0.5) / fall;
      window[i] = 0.5 - 0.5 * StrictMath.cos(Math.PI * u);
    }
    return window;
  }

  private void room(int plays, int channels) {
    if (heard.length != plays || heard[0].length != channels) {
      heard = new double[plays][channels][most];
      errors = new double[plays][channels][most];
      shape = new double[plays][channels][most];
      shapeErrors = new double[plays][channels][most];
      noiseAlong = new double[plays][channels];
      noiseLength = new double[plays][channels];
    }
  }

  /**
   * Judges.
   *
   * @param x by play and channel
   * @param group the place, in one channel or several at once
   * @param from first frame that may be looked at
   * @param to one past the last
   * @param evidence receives, by play, the logarithm of how much likelier it is damaged than sound
   * @param extra receives, by play, deviations by which it holds part of the difference as damage
   *     too
   */
  void judge(double[][][] x, SpanGroup group, int from, int to, double[] evidence, double[] extra) {
    int plays = x.length;
    room(plays, x[0].length);
    Arrays.fill(evidence, 0);
    Arrays.fill(extra, 0);
    int ways = 0;
    for (int way = -1; way <= 1; way += 2) {
      double[][] likely = new double[2 * plays][MODELS.length];
      double[][] more = new double[MODELS.length][plays];
      int told = 0;
      int best = 0;
      for (int m = 0; m < MODELS.length; m++) {
        if (weigh(x, group, from, to, way, m, likely, more[m])) {
          best = told == 0 || likely[0][m] > likely[0][best] ? m : best;
          told++;
        }
      }
      if (told == 0) {
        continue;
      }
      for (int p = 0; p < plays; p++) {
        evidence[p] += total(likely[2 * p + 1]) - total(likely[2 * p]);
        double one = more[best][p];
        extra[p] = ways == 0 ? one : Math.max(extra[p], one);
      }
      ways++;
    }
    for (int p = 0; p < plays && ways > 0; p++) {
      evidence[p] /= ways;
    }
  }

  /** Logarithm of the sum of likelihoods. */
  private static double total(double[] logs) {
    double most = Double.NEGATIVE_INFINITY;
    for (double one : logs) {
      most = Math.max(most, one);
    }
    double sum = 0;
    for (double one : logs) {
      sum += StrictMath.exp(one - most);
    }
    return most + StrictMath.log(sum);
  }

  private boolean weigh(
      double[][][] x,
      SpanGroup group,
      int from,
      int to,
      int way,
      int m,
      double[][] likely,
      double[] more) {
    int plays = x.length;
    int channels = x[0].length;
    int order = orders[m];
    int span = group.end() - group.start();
    int length = Math.min(lengths[m], way < 0 ? group.start() - from : to - group.end());
    int reach =
        Math.min(orders[orders.length - 1], way < 0 ? to - group.end() : group.start() - from);
    for (double[] one : likely) {
      one[m] = Double.NEGATIVE_INFINITY;
    }
    if (length < 4 * order || length < noiseFrames + order) {
      return false;
    }
    int end = length + span + reach;
    int origin = way < 0 ? group.start() - length : group.end() + length - 1;
    for (int p = 0; p < plays; p++) {
      for (int c = 0; c < channels; c++) {
        double[] into = heard[p][c];
        for (int i = 0; i < end; i++) {
          into[i] = x[p][c][origin - way * i];
        }
      }
    }
    for (int c = 0; c < channels; c++) {
      model(c, plays, length, m);
      for (int p = 0; p < plays; p++) {
        PredictionFilter.residual(a, order, heard[p][c], length - noiseFrames, end, errors[p][c]);
      }
      shapes(group, c, plays, length, span, end, way, order);
    }
    likelihoods(plays, channels, length, end, m, likely, more, group);
    return true;
  }

  private void model(int c, int plays, int length, int m) {
    Arrays.fill(mean, 0, length, 0);
    for (int p = 0; p < plays; p++) {
      for (int i = 0; i < length; i++) {
        mean[i] += heard[p][c][i] / plays;
      }
    }
    double[] window = length == lengths[m] ? windows[m] : window(length);
    correlations[m].compute(mean, 0, length, window, r);
    r[0] = r[0] * (1 + WHITE) + 1e-300;
    LevinsonDurbin.solve(r, orders[m], a, null);
  }

  /** Fills {@link #shape} and its errors: what each play differs by, noise smoothed away. */
  private void shapes(
      SpanGroup group, int c, int plays, int length, int span, int end, int way, int order) {
    int width = -2;
    for (int p = 0; p < plays; p++) {
      double[] d = mean;
      for (int i = 0; i < end; i++) {
        double others = 0;
        for (int q = 0; q < plays; q++) {
          others += q == p ? 0 : heard[q][c][i];
        }
        d[i] = heard[p][c][i] - others / (plays - 1);
      }
      double[] template = shape[p][c];
      Arrays.fill(template, 0, end, 0);
      Arrays.fill(shapeErrors[p][c], 0, end, 0);
      noiseAlong[p][c] = 0;
      noiseLength[p][c] = 0;
      if (!group.holds(c)) {
        continue;
      }
      int low = length + (way < 0 ? group.start(c) - group.start() : group.end() - group.end(c));
      int high = low + group.end(c) - group.start(c);
      if (width == -2) {
        width = width(d, low, high, end);
      }
      smooth(d, low, high, end, width, template);
      PredictionFilter.residual(a, order, template, length, end, shapeErrors[p][c]);
      noise(p, c, plays, length, width);
    }
  }

  /** The widest filter that leaves the difference nearly all there, or -1. */
  private int width(double[] d, int low, int high, int end) {
    double all = 0;
    for (int i = low; i < high; i++) {
      all += d[i] * d[i];
    }
    for (int width = SMOOTH.length - 1; width >= 0; width--) {
      smooth(d, low, high, end, width, smoothed);
      double kept = 0;
      for (int i = low; i < high; i++) {
        kept += smoothed[i] * smoothed[i];
      }
      if (kept > KEPT * all) {
        return width;
      }
    }
    return -1;
  }

  private static void smooth(double[] d, int low, int high, int end, int width, double[] into) {
    if (width < 0) {
      System.arraycopy(d, low, into, low, high - low);
      return;
    }
    double[] taps = SMOOTH[width];
    int half = taps.length / 2;
    int first = Math.max(0, low - half);
    int last = Math.min(end, high + half);
    for (int i = low; i < high; i++) {
      double sum = 0;
      for (int k = Math.max(-half, first - i); k <= half && i + k < last; k++) {
        sum += taps[k + half] * d[i + k];
      }
      into[i] = sum;
    }
  }

  /** What noise gives a frame anyhow, before the place: it would lean to the noisier play. */
  private void noise(int p, int c, int plays, int length, int width) {
    double[] d = mean;
    int start = length - noiseFrames;
    for (int i = start; i < length; i++) {
      double others = 0;
      for (int q = 0; q < plays; q++) {
        others += q == p ? 0 : errors[q][c][i];
      }
      d[i] = errors[p][c][i] - others / (plays - 1);
    }
    // smoothing and whitening may change places
    smooth(d, start, length, length, width, smoothed);
    int each = noiseFrames / NOISE_PARTS;
    for (int part = 0; part < NOISE_PARTS; part++) {
      double along = 0;
      double square = 0;
      for (int i = start + part * each; i < start + (part + 1) * each; i++) {
        along += errors[p][c][i] * smoothed[i];
        square += smoothed[i] * smoothed[i];
      }
      alongsOf[part] = along / each;
      lengthsOf[part] = square / each;
    }
    System.arraycopy(lengthsOf, 0, parts, 0, NOISE_PARTS);
    double middle = Median.of(parts, 0, NOISE_PARTS);
    double share = 0;
    int some = 0;
    for (int part = 0; part < NOISE_PARTS; part++) {
      if (lengthsOf[part] <= middle) {
        share += alongsOf[part];
        some++;
      }
    }
    noiseLength[p][c] = middle;
    noiseAlong[p][c] = share / some;
  }

  private void likelihoods(
      int plays,
      int channels,
      int length,
      int end,
      int m,
      double[][] likely,
      double[] more,
      SpanGroup group) {
    double[] known = new double[3];
    double[] sound = new double[3];
    double[] damaged = new double[3];
    double count = end - length;
    double half = (PRIOR + count) / 2;
    for (int p = 0; p < plays; p++) {
      scatter(p, channels, length - noiseFrames, length, false, known);
      scatter(p, channels, length, end, false, sound);
      scatter(p, channels, length, end, true, damaged);
      double worst = Double.NEGATIVE_INFINITY;
      for (int c = 0; c < channels; c++) {
        if (!group.holds(c)) {
          continue;
        }
        int at = c == 0 ? 0 : 2;
        double frames = group.end(c) - group.start(c);
        double along = -frames * noiseAlong[p][c];
        double square = -frames * noiseLength[p][c];
        double whole = 0;
        for (int i = length; i < end; i++) {
          along += errors[p][c][i] * shapeErrors[p][c][i];
          whole += shapeErrors[p][c][i] * shapeErrors[p][c][i];
        }
        square = Math.max(0, square + whole);
        double before = sound[at];
        damaged[at] = Math.max(0.01 * before, before - 2 * along + square);
        double error = Math.min(before, damaged[at]) / count;
        worst = Math.max(worst, (along + SHARED * square) / (Math.sqrt(whole * error) + 1e-300));
      }
      for (int k = 0; k < 3; k++) {
        double prior = PRIOR * known[k] / noiseFrames;
        sound[k] += prior;
        damaged[k] += prior;
      }
      likely[2 * p][m] = -half * volume(sound, channels);
      likely[2 * p + 1][m] = -half * volume(damaged, channels);
      more[p] = worst;
    }
  }

  /** Sums of squares of the errors of one channel, products, squares of the other. */
  private void scatter(int p, int channels, int low, int high, boolean less, double[] into) {
    Arrays.fill(into, 0);
    double[] one = errors[p][0];
    double[] other = errors[p][channels - 1];
    double[] oneShape = shapeErrors[p][0];
    double[] otherShape = shapeErrors[p][channels - 1];
    for (int i = low; i < high; i++) {
      double u = less ? one[i] - oneShape[i] : one[i];
      double v = less ? other[i] - otherShape[i] : other[i];
      into[0] += u * u;
      into[1] += u * v;
      into[2] += v * v;
    }
  }

  /** Logarithm of the determinant. */
  private static double volume(double[] scatter, int channels) {
    if (channels == 1) {
      return StrictMath.log(scatter[0] + 1e-300);
    }
    double product = scatter[0] * scatter[2];
    return StrictMath.log(Math.max(1e-9 * product, product - scatter[1] * scatter[1]) + 1e-300);
  }
}
