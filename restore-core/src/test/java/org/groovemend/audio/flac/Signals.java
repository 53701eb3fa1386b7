package org.groovemend.audio.flac;

import java.util.Random;
import org.groovemend.audio.Words;

/** Seeded test sides as words: {@code [channel][frame]}. */
final class Signals {

  private Signals() {}

  /** Uniform noise over the full scale of {@code bits}. */
  static long[][] noise(int bits, int channels, int frames, long seed) {
    return noise(bits, channels, frames, seed, bits);
  }

  /** Uniform noise over the scale of {@code loud} bits. */
  static long[][] noise(int bits, int channels, int frames, long seed, int loud) {
    Random random = new Random(seed);
    long[][] words = new long[channels][frames];
    for (long[] channel : words) {
      for (int i = 0; i < frames; i++) {
        channel[i] = Words.signExtend(random.nextLong() >> 64 - Math.min(loud, bits), bits);
      }
    }
    return words;
  }

  /**
   * A slow tone, nearly the same in both channels, with a little noise: what linear prediction is
   * for.
   */
  static long[][] tone(int bits, int channels, int frames, long seed) {
    long[][] words = noise(bits, channels, frames, seed, bits - 10);
    double peak = 0.4 * (1L << (bits - 1));
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < frames; i++) {
        double x = StrictMath.sin(0.013 * i) + 0.3 * StrictMath.sin(0.071 * i + 0.05 * c);
        words[c][i] += (long) (peak * x * (1.0 - 0.03 * c));
      }
    }
    return words;
  }

  /**
   * Both ends of the scale in turn, the channels against each other: the widest side channel there
   * is.
   */
  static long[][] square(int bits, int channels, int frames) {
    long[][] words = new long[channels][frames];
    long low = -(1L << (bits - 1));
    for (int c = 0; c < channels; c++) {
      for (int i = 0; i < frames; i++) {
        words[c][i] = ((i / 37 + c) & 1) == 0 ? low : -low - 1;
      }
    }
    return words;
  }

  static long[][] silence(int channels, int frames) {
    return new long[channels][frames];
  }

  /** Silence with short bursts, as the difference signal of click repair has. */
  static long[][] bursts(int bits, int channels, int frames, long seed) {
    Random random = new Random(seed);
    long[][] words = new long[channels][frames];
    long[][] noise = noise(bits, channels, frames, seed + 1, bits - 3);
    for (int at = 0; at < frames; at += 200 + random.nextInt(3000)) {
      int c = random.nextInt(channels);
      int end = Math.min(frames, at + 10 + random.nextInt(150));
      System.arraycopy(noise[c], at, words[c], at, end - at);
    }
    return words;
  }

  /** A tone whose {@code low} low bits are zero. */
  static long[][] wasted(int bits, int channels, int frames, int low) {
    long[][] words = tone(bits - low, channels, frames, 5);
    for (long[] channel : words) {
      for (int i = 0; i < frames; i++) {
        channel[i] <<= low;
      }
    }
    return words;
  }
}
