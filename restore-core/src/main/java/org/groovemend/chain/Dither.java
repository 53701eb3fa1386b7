package org.groovemend.chain;

/**
 * Triangular dither of plus and minus one step, the sum of two independent uniform numbers, from a
 * counter: the value at a frame depends on seed, channel and frame only.
 *
 * <p>Triangular probability density makes mean and variance of the total error independent of the
 * signal (Lipshitz, Wannamaker and Vanderkooy, "Quantization and Dither: A Theoretical Survey", J.
 * Audio Eng. Soc. 40(5), 1992; from memory). Mixing is the finaliser of the SplitMix64 generator
 * (Steele, Lea and Flood, OOPSLA 2014; constants from memory, statistics tested).
 */
public final class Dither {

  private static final double UNIT = 1.0 / (1L << 32);

  private final long key;

  public Dither(long seed, int channel) {
    this.key = mix(seed * 0x9E3779B97F4A7C15L + channel);
  }

  /** Dither in steps, above -1 and below 1. */
  public double at(long frame) {
    long bits = mix(key ^ frame * 0xD1342543DE82EF95L);
    return (bits >>> 32) * UNIT - (bits & 0xffffffffL) * UNIT;
  }

  private static long mix(long z) {
    z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
    z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
    return z ^ z >>> 31;
  }
}
