package org.groovemend.hum;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.window.KaiserLowPass;
import org.groovemend.stage.RangeReader;

/**
 * The side at a rate of some 3 to 6 kHz: sample i lies at frame {@code i * step()}. Linear-phase
 * low-pass, Kaiser window for 80 dB (J. Kaiser, in Kuo and Kaiser, System Analysis by Digital
 * Computer, 1966): flat to 1e-4 up to 1050 Hz, and nothing above folds into that.
 */
final class LowRate {
  private static final double LEAST_RATE = 3000;
  private static final double PASS_HERTZ = 1050;
  private static final double STOP_DB = 80;

  /** Sides of up to so many samples, some 2 min, are held: they are read eight times. */
  private static final int MOST_KEPT = 1 << 19;

  private static final int CHUNK = 1 << 13;

  private final RangeReader side;
  private final int step;
  private final double[] filter;
  private double[][] frames;
  private double[][] kept;

  LowRate(RangeReader side) {
    this.side = side;
    int rate = side.format().sampleRateHz();
    this.step = Math.max(1, (int) (rate / LEAST_RATE));
    this.filter = step == 1 ? new double[] {1} : design(rate, step);
    this.frames = new double[side.format().channels()][0];
  }

  int step() {
    return step;
  }

  double rate() {
    return side.format().sampleRateHz() / (double) step;
  }

  int channels() {
    return frames.length;
  }

  /** Samples of the whole side. */
  long length() {
    return (side.frames() + step - 1) / step;
  }

  long sideFrames() {
    return side.frames();
  }

  /** Fills {@code into[channel][0...count)}; zero beyond the side. */
  void read(long first, int count, double[][] into) throws IOException {
    if (length() > MOST_KEPT) {
      compute(first, count, into);
      return;
    }
    if (kept == null) {
      keep();
    }
    int from = (int) Math.max(0, Math.min(count, -first));
    int to = (int) Math.max(from, Math.min(count, length() - first));
    // beyond the ends the filter still rings
    if (from > 0) {
      compute(first, from, into);
    }
    if (to > from) {
      for (int c = 0; c < kept.length; c++) {
        System.arraycopy(kept[c], (int) (first + from), into[c], from, to - from);
      }
    }
    if (to < count) {
      double[][] ring = new double[kept.length][count - to];
      compute(first + to, count - to, ring);
      for (int c = 0; c < kept.length; c++) {
        System.arraycopy(ring[c], 0, into[c], to, count - to);
      }
    }
  }

  private void keep() throws IOException {
    int length = (int) length();
    kept = new double[frames.length][length];
    double[][] part = new double[frames.length][CHUNK];
    for (int at = 0; at < length; at += CHUNK) {
      int count = Math.min(CHUNK, length - at);
      compute(at, count, part);
      for (int c = 0; c < kept.length; c++) {
        System.arraycopy(part[c], 0, kept[c], at, count);
      }
    }
  }

  private void compute(long first, int count, double[][] into) throws IOException {
    int half = filter.length / 2;
    long from = first * step - half;
    int need = (count - 1) * step + filter.length;
    long begin = Math.max(0, from);
    int got = (int) Math.max(0, Math.min(side.frames(), from + need) - begin);
    int lead = (int) (begin - from);
    if (frames[0].length < need) {
      frames = new double[frames.length][need];
    }
    double[][] part = new double[frames.length][got];
    if (got > 0) {
      side.read(begin, got, part);
    }
    for (int c = 0; c < frames.length; c++) {
      double[] x = frames[c];
      Arrays.fill(x, 0, need, 0);
      System.arraycopy(part[c], 0, x, Math.min(lead, need), got);
      for (int i = 0; i < count; i++) {
        int at = i * step;
        double sum = filter[half] * x[at + half];
        for (int k = 1; k <= half; k++) {
          sum += filter[half - k] * (x[at + half - k] + x[at + half + k]);
        }
        into[c][i] = sum;
      }
    }
  }

  private static double[] design(int rate, int step) {
    double width = (rate / (double) step - 2 * PASS_HERTZ) / rate;
    // both edges lie evenly about half the low rate
    return KaiserLowPass.design(KaiserLowPass.half(STOP_DB, width), 0.5 / step, STOP_DB);
  }
}
