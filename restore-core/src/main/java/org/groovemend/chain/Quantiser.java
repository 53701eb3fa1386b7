package org.groovemend.chain;

import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.Words;

/**
 * Doubles back to words, once, at the end of the chain.
 *
 * <p>A value that lies on the grid of the format already, as every untouched sample does, becomes
 * its word and nothing else. Any other value of an integer format is dithered and rounded to the
 * significant bits; what then lies outside the range is set to its end and counted. Float words are
 * rounded to nearest.
 */
public final class Quantiser {

  private final AudioFormat format;
  private final Dither[] dither;
  private long clipped;

  public Quantiser(AudioFormat format, long seed) {
    this(format, seed, false);
  }

  /**
   * @param alike true if all channels hold the same and are to become the same words
   */
  Quantiser(AudioFormat format, long seed, boolean alike) {
    this.format = format;
    dither = new Dither[format.channels()];
    for (int c = 0; c < dither.length; c++) {
      dither[c] = new Dither(seed, alike ? 0 : c);
    }
  }

  /** Samples that had to be set to the end of the range so far. */
  public long clipped() {
    return clipped;
  }

  /**
   * Words of some samples of one channel.
   *
   * @param firstFrame of {@code samples[0]}; the dither hangs on it
   * @param out filled from 0 on
   */
  public void quantise(int channel, long firstFrame, double[] samples, int count, long[] out) {
    if (format.coding() == SampleCoding.FLOAT) {
      for (int i = 0; i < count; i++) {
        requireFinite(samples[i], firstFrame + i);
        out[i] = Words.floatWord(samples[i], format);
      }
      return;
    }
    double scale = 1L << (format.containerBits() - 1);
    double coarse = 1L << (format.containerBits() - format.significantBits());
    double top = scale - coarse;
    Dither random = dither[channel];
    for (int i = 0; i < count; i++) {
      double value = samples[i] * scale;
      double whole = StrictMath.rint(value);
      if (whole == value && whole >= -scale && whole <= scale - 1) {
        out[i] = (long) whole;
        continue;
      }
      requireFinite(value, firstFrame + i);
      double rounded = Math.floor(value / coarse + random.at(firstFrame + i) + 0.5) * coarse;
      if (rounded > top || rounded < -scale) {
        clipped++;
        rounded = rounded > 0 ? top : -scale;
      }
      out[i] = (long) rounded;
    }
  }

  private static void requireFinite(double value, long frame) {
    if (!Double.isFinite(value)) {
      throw new IllegalStateException("a stage produced " + value + " at frame " + frame);
    }
  }
}
