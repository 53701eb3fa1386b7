package org.groovemend.plays;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;

/**
 * How the level of a side moves in four octaves from 300 Hz, a hundred times a second: what stays
 * the same whatever stylus, gain or speed it was played with. Keeps 3.2 kB a second.
 *
 * @param moves by octave: logarithm of the power less its mean over half a second, in units of its
 *     own robust deviation, held to 3
 */
record Loudness(double[][] moves) {
  static final int PER_SECOND = 100;
  private static final double[] EDGES_HERTZ = {300, 600, 1200, 2400, 4800};
  private static final double WINDOW_SECONDS = 0.03;
  private static final int HALF_MEAN = PER_SECOND / 4;
  private static final double MOST = 3;

  /** Share of the median power that stands for silence. */
  private static final double FLOOR = 1e-3;

  int length() {
    return moves[0].length;
  }

  static Loudness of(RangeReader side) throws IOException {
    int rate = side.format().sampleRateHz();
    int length = 1 << (int) Math.round(StrictMath.log(WINDOW_SECONDS * rate) / StrictMath.log(2));
    int count = (int) Math.max(0, (side.frames() - length) * PER_SECOND / rate);
    int bands = EDGES_HERTZ.length - 1;
    double[][] power = new double[bands][count];
    double[] window = WindowShape.HANN.periodic(length);
    RealFft fft = new RealFft(length);
    double[] work = new double[length];
    int block = Math.max(1, rate / 2);
    double[][] x = new double[side.format().channels()][block + length];
    long held = -1;
    for (int n = 0; n < count; n++) {
      long at = (long) n * rate / PER_SECOND;
      if (held < 0 || at + length > held + x[0].length) {
        held = at;
        int some = (int) Math.min(x[0].length, side.frames() - at);
        side.read(at, some, x);
      }
      for (double[] channel : x) {
        for (int i = 0; i < length; i++) {
          work[i] = window[i] * channel[(int) (at - held) + i];
        }
        fft.forward(work);
        for (int b = 0; b < bands; b++) {
          int from = (int) Math.ceil(EDGES_HERTZ[b] * length / rate);
          int to = (int) Math.min(length / 2, Math.ceil(EDGES_HERTZ[b + 1] * length / rate));
          for (int k = from; k < to; k++) {
            power[b][n] += work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1];
          }
        }
      }
    }
    for (double[] band : power) {
      move(band);
    }
    return new Loudness(power);
  }

  private static void move(double[] x) {
    int n = x.length;
    if (n == 0) {
      return;
    }
    double floor = FLOOR * Median.of(x.clone(), 0, n) + 1e-30;
    double[] sum = new double[n + 1];
    for (int i = 0; i < n; i++) {
      x[i] = StrictMath.log(x[i] + floor);
      sum[i + 1] = sum[i] + x[i];
    }
    double[] moved = new double[n];
    for (int i = 0; i < n; i++) {
      int from = Math.max(0, i - HALF_MEAN);
      int to = Math.min(n, i + HALF_MEAN + 1);
      moved[i] = x[i] - (sum[to] - sum[from]) / (to - from);
    }
    double scale = RobustScale.aboutZero(moved, 0, n, new double[n]);
    if (!(scale > 1e-9)) {
      Arrays.fill(x, 0);
      return;
    }
    for (int i = 0; i < n; i++) {
      x[i] = Math.max(-MOST, Math.min(MOST, moved[i] / scale));
    }
  }
}
