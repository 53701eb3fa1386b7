package org.groovemend.rumble;

import java.util.Arrays;
import org.groovemend.signal.window.KaiserLowPass;

/**
 * The low part of a signal, made at a low rate: the signal is thinned to every {@code step}th frame
 * (counted from frame 0 of the side) by a linear-phase low-pass, filtered there, and filled in
 * again to all frames. Each of the three is symmetric, so there is no delay; what the thinning
 * folds and the filling-in mirrors is 130 dB down. One instance per thread.
 */
final class LowPart {
  private static final double STOP_DB = 130;

  /** The low rate over the frequency up to which there is anything. */
  private static final double RATE_OVER_EDGE = 4;

  private final int step;
  private final double[] thinning;
  private final double[] kernel;
  private final double[][] filling;
  private double[] thin = new double[0];
  private double[] low = new double[0];

  private LowPart(int rate, LowPassShape shape, LowPassShape without) {
    double edge = shape.edgeHertz();
    step = (int) Math.max(1, Math.floor(rate / (RATE_OVER_EDGE * edge)));
    double lowRate = rate / (double) step;
    double reach = shape.reachSeconds();
    reach = without == null ? reach : Math.max(reach, without.reachSeconds());
    int half = (int) Math.ceil(reach * lowRate);
    kernel = shape.sampled(lowRate, half);
    if (without != null) {
      double[] less = without.sampled(lowRate, half);
      for (int k = 0; k < kernel.length; k++) {
        kernel[k] -= less[k];
      }
    }
    if (step == 1) {
      thinning = new double[] {1};
      filling = new double[][] {{1}};
      return;
    }
    double width = (lowRate - 2 * edge) / rate;
    thinning = KaiserLowPass.design(KaiserLowPass.half(STOP_DB, width), 0.5 / step, STOP_DB);
    filling = phases(thinning, step);
  }

  /** All that the shape lets through. */
  static LowPart of(int rate, LowPassShape shape) {
    return new LowPart(rate, shape, null);
  }

  /** What {@code wide} lets through and {@code narrow} does not. */
  static LowPart between(int rate, LowPassShape narrow, LowPassShape wide) {
    return new LowPart(rate, wide, narrow);
  }

  /**
   * The taps by which each of the {@code step} frames from a low sample on is made of the low
   * samples about it; of each frame they add up to 1, so that a constant stays one.
   */
  private static double[][] phases(double[] filter, int step) {
    int half = filter.length / 2;
    int side = half / step + 1;
    double[][] phases = new double[step][2 * side];
    for (int r = 0; r < step; r++) {
      double sum = 0;
      for (int m = 0; m < 2 * side; m++) {
        int at = r - (m - side + 1) * step;
        phases[r][m] = Math.abs(at) <= half ? filter[half + at] : 0;
        sum += phases[r][m];
      }
      for (int m = 0; m < 2 * side; m++) {
        phases[r][m] /= sum;
      }
    }
    return phases;
  }

  /** Frames on either side of a frame that its low part is made of. */
  int reach() {
    return (filling[0].length / 2 + kernel.length / 2 + 1) * step + thinning.length / 2;
  }

  /**
   * Writes the low part of the frames {@code from} to {@code to} into {@code out} from its start
   * on.
   *
   * @param x index 0 is frame {@code from - reach()}, the last that is read {@code to + reach() -
   *     1}
   * @param from first frame, may be any number
   * @param to one past the last, above {@code from}
   */
  void of(double[] x, long from, long to, double[] out) {
    long first = from - reach();
    int side = filling[0].length / 2;
    int half = kernel.length / 2;
    long lowFrom = Math.floorDiv(from, step) - Math.max(0, side - 1);
    long lowTo = Math.floorDiv(to - 1, step) + side + 1;
    int count = (int) (lowTo - lowFrom);
    ensure(count, half);
    int at = (int) ((lowFrom - half) * step - first);
    if (step == 1) {
      System.arraycopy(x, at, thin, 0, count + 2 * half);
    } else {
      for (int j = 0; j < count + 2 * half; j++) {
        thin[j] = symmetric(thinning, x, at + j * step);
      }
    }
    for (int j = 0; j < count; j++) {
      low[j] = symmetric(kernel, thin, j + half);
    }
    fill(from, to, lowFrom, side, out);
  }

  private void fill(long from, long to, long lowFrom, int side, double[] out) {
    if (step == 1) {
      System.arraycopy(low, (int) (from - lowFrom), out, 0, (int) (to - from));
      return;
    }
    int phase = Math.floorMod(from, step);
    int q = (int) (Math.floorDiv(from, step) - lowFrom) - side + 1;
    int frames = (int) (to - from);
    for (int i = 0; i < frames; i++) {
      double[] taps = filling[phase];
      double sum = 0;
      for (int m = 0; m < taps.length; m++) {
        sum += taps[m] * low[q + m];
      }
      out[i] = sum;
      if (++phase == step) {
        phase = 0;
        q++;
      }
    }
  }

  private void ensure(int count, int half) {
    if (low.length < count) {
      low = Arrays.copyOf(low, count);
      thin = Arrays.copyOf(thin, count + 2 * half);
    }
  }

  /** Sum of the products of a symmetric filter and the samples about one. */
  static double symmetric(double[] filter, double[] x, int middle) {
    int half = filter.length / 2;
    double sum = filter[half] * x[middle];
    for (int k = 1; k <= half; k++) {
      sum += filter[half + k] * (x[middle - k] + x[middle + k]);
    }
    return sum;
  }
}
