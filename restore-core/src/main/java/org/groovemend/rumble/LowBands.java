package org.groovemend.rumble;

import java.util.Arrays;
import org.groovemend.signal.window.KaiserLowPass;

/**
 * Lateral and vertical part below two frequencies at a low rate, from a side that is given block by
 * block; any cut into blocks gives the same. The ends are continued by their mirror image.
 */
final class LowBands {
  private static final double STOP_DB = 80;
  private static final int ORDER = 8;

  /** The low rate over the upper frequency. */
  private static final double RATE_OVER_BAND = 8;

  /** Is given every instant of the low rate, in order. */
  @FunctionalInterface
  interface Instants {
    /**
     * @param low below the lower frequency, constant offset and all
     * @param band from there to the upper frequency
     */
    void at(double lateralLow, double verticalLow, double lateralBand, double verticalBand);
  }

  private final int step;
  private final Instants sink;
  private final Part[] parts;
  private double[] part = new double[0];

  /**
   * @param rate of the side, Hz
   * @param channels 1 (all lateral) or 2
   */
  LowBands(int rate, int channels, double lowHertz, double highHertz, Instants sink) {
    step = Math.max(1, (int) (rate / (RATE_OVER_BAND * highHertz)));
    this.sink = sink;
    double lowRate = rate / (double) step;
    LowPassShape low = new LowPassShape(lowHertz, ORDER);
    LowPassShape high = new LowPassShape(highHertz, ORDER);
    int half = (int) Math.ceil(low.reachSeconds() * lowRate);
    double[] lowTaps = low.sampled(lowRate, half);
    double[] highTaps = high.sampled(lowRate, half);
    double[] thinning =
        step == 1
            ? new double[] {1}
            : KaiserLowPass.design(KaiserLowPass.half(STOP_DB, 0.5 / step), 0.5 / step, STOP_DB);
    parts = new Part[channels];
    for (int p = 0; p < channels; p++) {
      parts[p] = new Part(thinning, step, lowTaps, highTaps);
    }
  }

  /** Instants a second. */
  double lowRate(int rate) {
    return rate / (double) step;
  }

  /** Frames from one instant to the next; the first lies at frame 0. */
  int step() {
    return step;
  }

  void accept(double[][] x, int count) {
    if (count == 0) {
      return;
    }
    if (part.length < count) {
      part = new double[count];
    }
    if (parts.length == 1) {
      parts[0].accept(x[0], count);
    } else {
      for (int i = 0; i < count; i++) {
        part[i] = (x[0][i] + x[1][i]) / 2;
      }
      parts[0].accept(part, count);
      for (int i = 0; i < count; i++) {
        part[i] = (x[0][i] - x[1][i]) / 2;
      }
      parts[1].accept(part, count);
    }
    give();
  }

  /** After the last block. */
  void finish() {
    for (Part each : parts) {
      each.finish();
    }
    give();
  }

  private void give() {
    int ready = parts[0].ready;
    boolean vertical = parts.length == 2;
    for (int i = 0; i < ready; i++) {
      sink.at(
          parts[0].low[i],
          vertical ? parts[1].low[i] : 0,
          parts[0].band[i],
          vertical ? parts[1].band[i] : 0);
    }
    for (Part each : parts) {
      each.ready = 0;
    }
  }

  /** One part: thinned, then both filters at every instant. */
  private static final class Part {
    private final double[] thinning;
    private final int step;
    private final double[] lowTaps;
    private final double[] highTaps;
    private final Pending fast = new Pending();
    private final Pending slow = new Pending();
    private double[] low = new double[64];
    private double[] band = new double[64];
    private int ready;
    private boolean begun;
    private boolean thinned;

    Part(double[] thinning, int step, double[] lowTaps, double[] highTaps) {
      this.thinning = thinning;
      this.step = step;
      this.lowTaps = lowTaps;
      this.highTaps = highTaps;
    }

    void accept(double[] x, int count) {
      fast.append(x, count);
      begin(false);
    }

    void finish() {
      if (fast.length == 0) {
        return;
      }
      begin(true);
      fast.mirrorBack(thinning.length / 2);
      thin();
      if (!thinned) {
        slow.mirrorFront(lowTaps.length / 2);
        thinned = true;
      }
      slow.mirrorBack(lowTaps.length / 2);
      filter();
    }

    /** Goes on as soon as there is enough to mirror. */
    private void begin(boolean last) {
      int half = thinning.length / 2;
      if (!begun && (last || fast.length >= Math.max(1, half))) {
        fast.mirrorFront(half);
        begun = true;
      }
      if (begun) {
        thin();
      }
      if (!thinned && slow.length >= lowTaps.length / 2) {
        slow.mirrorFront(lowTaps.length / 2);
        thinned = true;
      }
      if (thinned) {
        filter();
      }
    }

    private void thin() {
      int half = thinning.length / 2;
      int at = half;
      for (; at + half < fast.length; at += step) {
        slow.append(LowPart.symmetric(thinning, fast.data, at));
      }
      fast.drop(at - half);
    }

    private void filter() {
      int half = lowTaps.length / 2;
      int at = half;
      for (; at + half < slow.length; at++) {
        if (ready == low.length) {
          low = Arrays.copyOf(low, 2 * ready);
          band = Arrays.copyOf(band, 2 * ready);
        }
        low[ready] = LowPart.symmetric(lowTaps, slow.data, at);
        band[ready] = LowPart.symmetric(highTaps, slow.data, at) - low[ready];
        ready++;
      }
      slow.drop(at - half);
    }
  }

  /** Samples that are still needed. */
  private static final class Pending {
    private double[] data = new double[1024];
    private int length;

    void append(double[] x, int count) {
      ensure(count);
      System.arraycopy(x, 0, data, length, count);
      length += count;
    }

    void append(double value) {
      ensure(1);
      data[length++] = value;
    }

    /** Puts the mirror image of the first samples before them. */
    void mirrorFront(int count) {
      ensure(count);
      System.arraycopy(data, 0, data, count, length);
      int period = 2 * length;
      for (int k = 1; k <= count; k++) {
        int at = Math.floorMod(-k, period);
        data[count - k] = data[count + (at < length ? at : period - 1 - at)];
      }
      length += count;
    }

    /** Puts the mirror image of the last samples behind them; there are at least as many. */
    void mirrorBack(int count) {
      ensure(count);
      for (int k = 0; k < count; k++) {
        data[length + k] = data[length - 1 - k];
      }
      length += count;
    }

    void drop(int count) {
      System.arraycopy(data, count, data, 0, length - count);
      length -= count;
    }

    private void ensure(int count) {
      if (length + count > data.length) {
        data = Arrays.copyOf(data, Math.max(2 * data.length, length + count));
      }
    }
  }
}
