package org.groovemend.transfer;

import java.util.BitSet;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/**
 * Asks the lowest bits of the words whether they were ever sound.
 *
 * <p>Three signs of fewer bits than the file has: bits that never change (16 bits put into 24);
 * seconds in which more bits stand still than in others (a piece from elsewhere); codes near zero
 * that never occur though their neighbours do (16 bits multiplied by some gain).
 */
public final class WordMeter implements BlockMeter {
  private static final int NEAR_ZERO = 1 << 15;

  /** Words looked at for codes: one in so many frames, which music does not keep step with. */
  private static final int EVERY = 3;

  /** Below this many small words nothing is said of codes. */
  private static final long LEAST_SMALL = 20_000;

  private final AudioFormat format;
  private final BitSet codes = new BitSet(2 * NEAR_ZERO);
  private long small;
  private long smallest = NEAR_ZERO;
  private long largest = -NEAR_ZERO;
  private long first;
  private boolean begun;
  private long changed;
  private long changedInSecond;
  private long firstOfSecond;
  private long inSecond;
  private long frames;
  private final long[] secondsByBits = new long[65];

  public WordMeter(AudioFormat format) {
    this.format = format;
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    if (format.coding() != SampleCoding.PCM || count == 0) {
      return;
    }
    if (!begun) {
      first = words[0][0];
      begun = true;
    }
    for (int done = 0; done < count; ) {
      int n = (int) Math.min(count - done, format.sampleRateHz() - inSecond);
      if (inSecond == 0) {
        firstOfSecond = words[0][done];
      }
      for (long[] channel : words) {
        long all = changed;
        long here = changedInSecond;
        for (int i = done; i < done + n; i++) {
          all |= channel[i] ^ first;
          here |= channel[i] ^ firstOfSecond;
        }
        changed = all;
        changedInSecond = here;
        codes(channel, done, n);
      }
      done += n;
      inSecond += n;
      frames += n;
      if (inSecond == format.sampleRateHz()) {
        secondsByBits[bits(changedInSecond)]++;
        inSecond = 0;
        changedInSecond = 0;
      }
    }
  }

  private void codes(long[] channel, int from, int n) {
    int skip = (int) ((EVERY - frames % EVERY) % EVERY);
    for (int i = from + skip; i < from + n; i += EVERY) {
      long word = channel[i];
      if (word > -NEAR_ZERO && word < NEAR_ZERO) {
        codes.set((int) (word + NEAR_ZERO));
        small++;
        smallest = Math.min(smallest, word);
        largest = Math.max(largest, word);
      }
    }
  }

  private int bits(long changed) {
    return changed == 0 ? 0 : format.containerBits() - Long.numberOfTrailingZeros(changed);
  }

  /** After the last block. */
  public WordTruth finish() {
    if (format.coding() != SampleCoding.PCM) {
      return new WordTruth(format.containerBits(), 0, 0, Double.NaN);
    }
    int used = bits(changed);
    long sounding = 0;
    long coarser = 0;
    for (int b = 1; b < secondsByBits.length; b++) {
      sounding += secondsByBits[b];
      // fewer bits by four or more cannot be chance in a second of sound
      coarser += b <= used - 4 ? secondsByBits[b] : 0;
    }
    return new WordTruth(used, coarser, sounding, occupied(used));
  }

  /** Codes met over codes expected if all within the range were alike; NaN if too few were seen. */
  private double occupied(int used) {
    long step = 1L << Math.max(0, format.containerBits() - used);
    double range = (largest - smallest) / (double) step + 1;
    if (small < LEAST_SMALL || range < 256) {
      return Double.NaN;
    }
    double expected = range * (1 - StrictMath.exp(-small / range));
    return codes.cardinality() / expected;
  }
}
