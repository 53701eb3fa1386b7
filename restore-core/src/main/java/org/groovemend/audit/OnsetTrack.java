package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;

/**
 * How the level of octave bands rises and falls, {@value #PER_SECOND} times a second: alike for
 * copies of one recording whatever their gain, polarity, curve or rate.
 *
 * @param bands change of the level, log10 of power over 40 ms, each limited to +-{@value #MOST}
 */
record OnsetTrack(float[][] bands) {
  static final int PER_SECOND = 100;
  private static final double[] EDGES_HERTZ = {150, 300, 600, 1200, 2400, 4800};
  private static final double SECONDS = 0.04;
  private static final double MOST = 1.5;

  /** Level below which nothing is heard: -120 dB re full scale, so that no silence has onsets. */
  private static final double FLOOR = 1e-12;

  private static final int REACH = 2;

  int length() {
    return bands[0].length;
  }

  /**
   * Reads a side once, forwards.
   *
   * @param highestHertz half the lower rate of what is compared; bands above it are left out
   */
  static OnsetTrack of(RangeReader side, double highestHertz) throws IOException {
    int rate = side.format().sampleRateHz();
    int size = 64;
    while (size * Math.sqrt(2) < SECONDS * rate) {
      size *= 2;
    }
    int count = (int) Math.max(0, (side.frames() - size) * PER_SECOND / rate);
    int used = 0;
    while (used + 1 < EDGES_HERTZ.length && EDGES_HERTZ[used + 1] <= 0.9 * highestHertz) {
      used++;
    }
    float[][] level = new float[used][count];
    RealFft fft = new RealFft(size);
    double[] window = WindowShape.HANN.periodic(size);
    double[] spectrum = new double[size];
    double[][] x = new double[side.format().channels()][rate + size];
    for (int block = 0; block < count; block += PER_SECOND) {
      long first = (long) block * rate / PER_SECOND;
      int n = (int) Math.min(x[0].length, side.frames() - first);
      side.read(first, n, x);
      for (int i = block; i < Math.min(count, block + PER_SECOND); i++) {
        int at = (int) ((long) i * rate / PER_SECOND - first);
        for (double[] channel : x) {
          for (int k = 0; k < size; k++) {
            spectrum[k] = window[k] * channel[at + k];
          }
          fft.forward(spectrum);
          for (int b = 0; b < used; b++) {
            int from = bin(EDGES_HERTZ[b], rate, size);
            int to = Math.max(from + 1, bin(EDGES_HERTZ[b + 1], rate, size));
            for (int k = from; k < to; k++) {
              level[b][i] +=
                  (float)
                      (spectrum[2 * k] * spectrum[2 * k]
                          + spectrum[2 * k + 1] * spectrum[2 * k + 1]);
            }
          }
        }
      }
    }
    for (float[] band : level) {
      rises(band, FLOOR * size * size / 16);
    }
    return new OnsetTrack(level);
  }

  private static int bin(double hertz, int rate, int size) {
    return (int) Math.min(size / 2 - 1, Math.max(1, Math.round(hertz * size / rate)));
  }

  private static void rises(float[] band, double floor) {
    for (int i = 0; i < band.length; i++) {
      band[i] = (float) StrictMath.log10(band[i] + floor);
    }
    float[] level = Arrays.copyOf(band, band.length);
    for (int i = 0; i < band.length; i++) {
      double rise =
          level[Math.min(band.length - 1, i + REACH)] - (double) level[Math.max(0, i - REACH)];
      band[i] = (float) Math.max(-MOST, Math.min(MOST, rise));
    }
  }
}
