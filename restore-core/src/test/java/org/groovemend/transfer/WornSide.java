package org.groovemend.transfer;

import org.groovemend.audio.AudioFormat;
import org.groovemend.simulate.DemoSide;

/** The demonstration side as words of a file, to be damaged further. */
final class WornSide {
  static final int RATE = DemoSide.SAMPLE_RATE_HZ;

  private static final DemoSide SIDE = DemoSide.generate(20_411);

  private WornSide() {}

  static long musicStart() {
    return SIDE.truth().musicStart();
  }

  static long musicEnd() {
    return SIDE.truth().musicEnd();
  }

  static double rpm() {
    return SIDE.truth().rpm();
  }

  /** A copy of its own: words of a depth, and nothing else done to it. */
  static long[][] words(int bits) {
    double scale = 1L << (bits - 1);
    long[][] words = new long[2][SIDE.damaged()[0].length];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < words[c].length; i++) {
        words[c][i] = Math.round(SIDE.damaged()[c][i] * scale);
      }
    }
    return words;
  }

  static AudioFormat format(int bits) {
    return AudioFormat.pcm(RATE, 2, bits);
  }

  static double[][] samples(long[][] words, int bits) {
    double scale = 1.0 / (1L << (bits - 1));
    double[][] x = new double[words.length][words[0].length];
    for (int c = 0; c < words.length; c++) {
      for (int i = 0; i < x[c].length; i++) {
        x[c][i] = words[c][i] * scale;
      }
    }
    return x;
  }

  /** Runs a meter over a side in uneven blocks. */
  static void feed(BlockMeter meter, long[][] words, int bits) {
    feed(meter, words, samples(words, bits), 65_536);
  }

  static void feed(BlockMeter meter, long[][] words, double[][] samples, int most) {
    int channels = samples.length;
    int frames = samples[0].length;
    long[][] w = new long[channels][];
    double[][] x = new double[channels][];
    for (int at = 0, k = 0; at < frames; k++) {
      int n = Math.min(frames - at, Math.max(1, most - k % 7 * (most / 8)));
      for (int c = 0; c < channels; c++) {
        w[c] = words == null ? new long[n] : java.util.Arrays.copyOfRange(words[c], at, at + n);
        x[c] = java.util.Arrays.copyOfRange(samples[c], at, at + n);
      }
      meter.accept(w, x, n);
      at += n;
    }
  }
}
