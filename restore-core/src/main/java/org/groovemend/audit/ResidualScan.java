package org.groovemend.audit;

import java.io.IOException;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;
import org.groovemend.stage.RangeReader;

/**
 * Reads the whole derivative forwards beside what the models expect, and finds where it differs.
 *
 * <p>The floor of a moment is the median, over five blocks, of the robust standard deviation of
 * what is left in each; where what is left is steady, no more than three times its usual value. A
 * local change is a place where more than that stands out. Blocks that are the same sound at
 * another level are followed and told apart. Not for several threads at once.
 */
final class ResidualScan {
  private static final double BLOCK_SECONDS = 0.19;
  private static final int RING = 5;

  /** In standard deviations. A normal value passes the first once in some 10^10 samples. */
  private static final double HIGH = 6.5;

  private static final double LOW = 3;

  /** The same where what is left is not steady, and so not normal. */
  private static final double HIGH_UNSTEADY = 10;

  private static final double LOW_UNSTEADY = 5;

  /** Steps of the words: dither of two uniform values reaches 1.5. */
  private static final double HIGH_STEPS = 2;

  private static final double LOW_STEPS = 1.3;

  /** In what a model leaves that follows the sound. */
  private static final double HIGH_FOLLOWING = 10;

  private static final double LOW_FOLLOWING = 5;
  private static final double USUAL = 3;

  /** Near a break a filter heard other sound. */
  private static final double MARGIN_SECONDS = 0.01;

  private static final double LEVEL_BETTER = 4;
  private static final double LEVEL_LEAVES = 0.03;
  private static final double LEAST_LEVEL = 0.0115;

  private final RangeReader derivative;
  private final Model[] models;
  private final double placeDoubt;
  private final double step;
  private final int block;
  private final int rate;
  private final Expected expected;
  private final AlignedSide original;
  private final GainCensus census;
  private final double[][][] y;
  private final double[][][] e;
  private final double[][] floors;
  private final boolean[][] levelled;
  private final long[] firsts = new long[RING];
  private final int[] counts = new int[RING];
  private final double[] work;
  private final double[] five = new double[RING];
  private final RangeFinder[] finders;
  private final LevelFollower[] levels;
  private final DifferenceList list = new DifferenceList();
  private final DifferenceCourse course;

  /**
   * @param placeDoubt standard deviation of the place, frames; 0 where it is whole
   * @param step of the derivative's words
   * @param tops largest sample of each channel
   */
  ResidualScan(
      AlignedSide original,
      RangeReader derivative,
      Model[] models,
      double placeDoubt,
      double step,
      double[] tops) {
    this.placeDoubt = placeDoubt;
    this.original = original;
    this.derivative = derivative;
    this.models = models;
    this.step = step;
    rate = derivative.format().sampleRateHz();
    int wanted = 256;
    while (wanted * Math.sqrt(2) < BLOCK_SECONDS * rate) {
      wanted *= 2;
    }
    block = wanted;
    expected = new Expected(original, models, block);
    census = new GainCensus(rate);
    course = new DifferenceCourse(derivative.frames());
    int channels = models.length;
    y = new double[RING][channels][block];
    e = new double[RING][channels][block];
    floors = new double[RING][channels];
    levelled = new boolean[RING][channels];
    work = new double[block];
    finders = new RangeFinder[channels];
    levels = new LevelFollower[channels];
    for (int c = 0; c < channels; c++) {
      finders[c] = new RangeFinder(c, rate, tops[c], list);
      levels[c] = new LevelFollower(c);
    }
  }

  DifferenceList differences() {
    return list;
  }

  LevelFollower[] levels() {
    return levels;
  }

  DifferenceCourse course() {
    return course;
  }

  GainCensus census() {
    return census;
  }

  void run(Watch watch) throws IOException {
    for (Alignment.Stretch s : original.stretches()) {
      boolean plain = true;
      for (Model model : models) {
        plain &= model.taps() == null;
      }
      long margin = plain ? 0 : Math.round(MARGIN_SECONDS * rate);
      long from = s.from() + margin;
      long to = s.to() - margin;
      int blocks = (int) Math.max(0, (to - from + block - 1) / block);
      for (int b = 0; b < blocks + 2; b++) {
        if (b < blocks) {
          long first = from + (long) b * block;
          watch.at(first, derivative.frames());
          fill(b % RING, first, (int) Math.min(block, to - first));
        }
        if (b >= 2) {
          judge(b - 2, Math.min(blocks - 1, b));
        }
      }
      for (int c = 0; c < models.length; c++) {
        finders[c].close();
        levels[c].close();
      }
    }
  }

  private void fill(int slot, long first, int count) throws IOException {
    firsts[slot] = first;
    counts[slot] = count;
    derivative.read(first, count, y[slot]);
    expected.read(first, e[slot], 0);
    for (int c = 0; c < models.length; c++) {
      double[] a = y[slot][c];
      double[] b = e[slot][c];
      double gain = levelOf(a, b, count, models[c]);
      levels[c].add(first, count, gain);
      levelled[slot][c] = !Double.isNaN(gain);
      if (levelled[slot][c]) {
        for (int i = 0; i < count; i++) {
          b[i] *= gain;
        }
      }
      for (int i = 0; i < count; i++) {
        work[i] = Math.abs(a[i] - b[i]);
      }
      floors[slot][c] = RobustScale.NORMAL * Median.of(work, 0, count);
      if (!models[c].exact()) {
        for (int at = 0; at + census.size() <= count; at += census.size()) {
          census.add(a, b, at);
        }
      }
    }
  }

  /** Gain of a block that is the same sound at another level; NaN for all others. */
  private static double levelOf(double[] y, double[] e, int n, Model model) {
    double ye = 0;
    double ee = 0;
    double yy = 0;
    double rr = 0;
    for (int i = 0; i < n; i++) {
      double r = y[i] - e[i];
      ye += y[i] * e[i];
      ee += e[i] * e[i];
      yy += y[i] * y[i];
      rr += r * r;
    }
    if (!(ee > 0) || !(yy > 0)) {
      return Double.NaN;
    }
    double gain = ye / ee;
    double left = Math.max(0, yy - gain * ye);
    double usual = 3 * model.floor();
    boolean another =
        gain > 0
            && Math.abs(gain - 1) > LEAST_LEVEL
            && rr > LEVEL_BETTER * left
            && left < LEVEL_LEAVES * yy
            && rr > n * usual * usual;
    return another ? gain : Double.NaN;
  }

  /** Judges a block, its neighbours up to {@code last} being read. */
  private void judge(int b, int last) {
    int slot = b % RING;
    for (int c = 0; c < models.length; c++) {
      int n = 0;
      for (int k = Math.max(0, b - 2); k <= Math.min(last, b + 2); k++) {
        five[n++] = floors[k % RING][c];
      }
      double floor = Median.of(five, 0, n);
      Model model = models[c];
      boolean followed = levelled[slot][c];
      if (model.steady() && !followed) {
        floor = Math.min(floor, USUAL * model.floor());
      }
      boolean steady = model.steady() && !followed;
      boolean exact = model.exact() && !followed;
      double low = exact ? 0 : Math.max((steady ? LOW : LOW_UNSTEADY) * floor, LOW_STEPS * step);
      double high =
          exact ? 0 : Math.max((steady ? HIGH : HIGH_UNSTEADY) * floor, HIGH_STEPS * step);
      double[] a = y[slot][c];
      double[] x = e[slot][c];
      double lowHere = low;
      double highHere = high;
      RangeFinder finder = finders[c];
      long first = firsts[slot];
      int part = ModelChoice.shortWindow(rate);
      // a place that is wrong by its doubt leaves that share of the sound's change
      double misplaced = exact || model.taps() != null ? 0 : placeDoubt;
      double lowShare = Math.max(LOW_FOLLOWING * model.follows(), LOW * misplaced);
      double highShare = Math.max(HIGH_FOLLOWING * model.follows(), HIGH * misplaced);
      boolean follows = !exact && lowShare > 0;
      for (int i = 0; i < counts[slot]; i++) {
        if (follows && i % part == 0) {
          double swells = change(x, i - part, i + 2 * part, counts[slot]);
          lowHere = Math.max(low, lowShare * swells);
          highHere = Math.max(high, highShare * swells);
        } else if (i == 0) {
          lowHere = low;
          highHere = high;
        }
        finder.add(first + i, a[i], x[i], lowHere, highHere);
        course.add(first + i, a[i] - x[i], a[i]);
      }
    }
  }

  /** Largest change from sample to sample, half of it; a robust figure is not needed here. */
  private static double change(double[] x, int from, int to, int count) {
    double most = 0;
    for (int i = Math.max(1, from); i < Math.min(count, to); i++) {
      most = Math.max(most, Math.abs(x[i] - x[i - 1]));
    }
    return most / 2;
  }
}
