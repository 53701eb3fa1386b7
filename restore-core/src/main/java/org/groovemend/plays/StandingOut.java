package org.groovemend.plays;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.predict.Burg;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * Finds where a difference of plays stands out of its own noise. It is whitened by its own
 * predictor; a place begins where the forward error, and ends where the backward error, leaves the
 * noise. One instance per thread.
 */
final class StandingOut {
  /** Deviations from which on a place is one: twice in 10^8 samples of Gaussian noise. */
  private static final double STANDS_OUT = 5.6;

  private static final double EXTENT = 3;
  private static final int NOISE_ORDER = 24;

  /** Deviations to which the difference is held before its noise is modelled. */
  private static final double HELD = 3.5;

  private static final int SCALE_FRAMES = 4096;
  private static final double GAP_SECONDS = 0.25e-3;
  private static final double[] WIDTHS_SECONDS = {60e-6, 130e-6};

  /** Level of a tail, over a short box, up to which it still counts. */
  private static final double TAIL = 2.5;

  private static final int BOX = 24;

  /** A place is widened on each side by one part in so many. */
  private static final int FLANK = 4;

  private final int gap;
  private final int longest;
  private final Burg burg;
  private final double[] a = new double[NOISE_ORDER + 1];
  private final double[] back;
  private final double[] forward;
  private final double[] backward;
  private final double[] work = new double[SCALE_FRAMES];
  private final double[][] shapes;
  private final double[] whitened;
  private final double[] seen;
  private final double[] matched;
  private double[] d;

  /**
   * @param most frames of the longest stretch
   * @param longest frames of the longest place
   */
  StandingOut(int rate, int most, int longest) {
    gap = (int) Math.max(2, GAP_SECONDS * rate);
    this.longest = longest;
    burg = new Burg(most);
    back = new double[most];
    shapes = shapes(rate);
    whitened = new double[shapes[shapes.length - 1].length];
    seen = new double[most];
    matched = new double[most];
    forward = new double[most];
    backward = new double[most];
  }

  /**
   * First frames and ends of the places in {@code difference} over [from, to), in order; they may
   * overlap.
   */
  List<int[]> find(double[] difference, int from, int to) {
    d = difference;
    List<int[]> spans = new ArrayList<>();
    int n = to - from;
    if (n < 8 * NOISE_ORDER) {
      return spans;
    }
    // the noise is to be modelled, not what stands out of it
    for (int block = from; block < to; block += SCALE_FRAMES) {
      int end = Math.min(to, block + SCALE_FRAMES);
      double held = HELD * RobustScale.aboutZero(d, block, end, work);
      for (int i = block; i < end; i++) {
        back[i] = Math.max(-held, Math.min(held, d[i]));
      }
    }
    double error = burg.fit(back, from, n, NOISE_ORDER, a, null);
    if (!(error > 0)) {
      return spans;
    }
    for (int i = from; i < to; i++) {
      back[to - 1 - i + from] = d[i];
    }
    PredictionFilter.residual(a, NOISE_ORDER, d, from + NOISE_ORDER, to, forward);
    PredictionFilter.residual(a, NOISE_ORDER, back, from + NOISE_ORDER, to, backward);
    for (int block = from + NOISE_ORDER; block < to - NOISE_ORDER; block += SCALE_FRAMES) {
      int end = Math.min(to - NOISE_ORDER, block + SCALE_FRAMES);
      double scale = RobustScale.aboutZero(forward, block, end, work);
      double level = RobustScale.aboutZero(d, block, end, work);
      if (!(scale > 0)) {
        continue;
      }
      matched(block, end, from, to);
      for (int i = block; i < end; i++) {
        if (Math.abs(forward[i]) > STANDS_OUT * scale
            || Math.abs(behind(i, from, to)) > STANDS_OUT * scale
            || matched[i] > STANDS_OUT) {
          int[] span = extent(i, from, to, scale, level);
          if (span[1] - span[0] <= longest) {
            spans.add(span);
          }
          i = Math.max(i, span[1] + NOISE_ORDER);
        }
      }
    }
    return spans;
  }

  /** Largest deviation of the error seen through smooth shapes: finds damage without an edge. */
  private void matched(int block, int end, int from, int to) {
    Arrays.fill(matched, block, end, 0);
    for (double[] shape : shapes) {
      PredictionFilter.residual(a, NOISE_ORDER, shape, NOISE_ORDER, shape.length, whitened);
      int middle = shape.length / 2;
      for (int i = block; i < end; i++) {
        double sum = 0;
        int low = Math.max(NOISE_ORDER, from + NOISE_ORDER - i + middle);
        int high = Math.min(shape.length, to - i + middle);
        for (int k = low; k < high; k++) {
          sum += whitened[k] * forward[i + k - middle];
        }
        seen[i] = sum;
      }
      double scale = RobustScale.aboutZero(seen, block, end, work);
      for (int i = block; i < end; i++) {
        matched[i] = Math.max(matched[i], Math.abs(seen[i]) / (scale + 1e-300));
      }
    }
  }

  /** Humps and swings of two widths, silence about them for the predictor to run in and out. */
  private static double[][] shapes(int rate) {
    double[][] shapes = new double[2 * WIDTHS_SECONDS.length][];
    for (int s = 0; s < shapes.length; s++) {
      double width = WIDTHS_SECONDS[s / 2] * rate;
      int half = (int) Math.ceil(3 * width);
      shapes[s] = new double[2 * half + 1 + 2 * NOISE_ORDER];
      for (int i = -half; i <= half; i++) {
        double u = i / width;
        shapes[s][half + NOISE_ORDER + i] = (s % 2 == 0 ? 1 : u) * StrictMath.exp(-u * u / 2);
      }
    }
    return shapes;
  }

  private double behind(int i, int from, int to) {
    return backward[to - 1 - i + from];
  }

  private int[] extent(int hit, int from, int to, double scale, double level) {
    // the error behind may rise before the damage: the peak of both lies in it
    int peak = hit;
    double most = 0;
    for (int i = hit; i < Math.min(to - NOISE_ORDER, hit + 2 * NOISE_ORDER); i++) {
      double both = Math.abs(forward[i]) * Math.abs(behind(i, from, to));
      if (both > most) {
        most = both;
        peak = i;
      }
    }
    int start = peak;
    for (int i = peak; i >= from + NOISE_ORDER && i >= start - gap; i--) {
      if (Math.abs(forward[i]) > EXTENT * scale) {
        start = i;
      }
    }
    int end = peak + 1;
    for (int i = peak; i < to - NOISE_ORDER && i < end + gap && i < peak + longest; i++) {
      if (Math.abs(behind(i, from, to)) > EXTENT * scale) {
        end = i + 1;
      }
    }
    while (end + BOX < to - NOISE_ORDER && end - start < longest && box(end) > TAIL * level) {
      end += BOX / 2;
    }
    // flanks that hide in the noise
    int flank = 2 + (end - start) / FLANK;
    return new int[] {Math.max(from, start - flank), Math.min(to, end + flank)};
  }

  private double box(int at) {
    double sum = 0;
    for (int i = at; i < at + BOX; i++) {
      sum += d[i] * d[i];
    }
    return Math.sqrt(sum / BOX);
  }
}
