package org.groovemend.ledger;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.WordSource;

/**
 * Words of 64 bits as pairs of 32-bit PCM words, so that the difference of two 64-bit float files
 * can be kept in a plain WAV file: differences of bit patterns are no sensible floats, and programs
 * may alter a NaN in passing.
 *
 * <p>Word w of frame f is stored in the same channel as frame 2 f = its upper 32 bits and frame 2 f
 * + 1 = its lower 32 bits.
 */
public final class SplitWords {

  private static final int CHUNK_FRAMES = 1 << 13;
  private static final int HALF_BITS = 32;

  private SplitWords() {}

  /** The format of the split words: 32-bit PCM of the same rate and channels. */
  public static AudioFormat splitFormat(AudioFormat wide) {
    return AudioFormat.pcm(wide.sampleRateHz(), wide.channels(), HALF_BITS);
  }

  /** Splits {@code count} words into {@code 2 * count}; for writers that already hold them. */
  public static void split(long[] wide, int offset, int count, long[] halves, int halvesOffset) {
    for (int i = 0, at = halvesOffset; i < count; i++, at += 2) {
      long word = wide[offset + i];
      halves[at] = word >> HALF_BITS;
      halves[at + 1] = (int) word;
    }
  }

  /** Joins {@code 2 * count} words into {@code count}. */
  public static void join(long[] halves, int halvesOffset, long[] wide, int offset, int count) {
    for (int i = 0, at = halvesOffset; i < count; i++, at += 2) {
      wide[offset + i] = halves[at] << HALF_BITS | halves[at + 1] & 0xffff_ffffL;
    }
  }

  /** A source of 64-bit words, seen as twice as many 32-bit words. */
  public static WordSource halves(WordSource wide) {
    if (wide.format().containerBits() != 2 * HALF_BITS) {
      throw new IllegalArgumentException(wide.format() + " has no words of 64 bits");
    }
    return new Halves(wide);
  }

  /**
   * The 64-bit words of a source of halves. Their format is 64-bit float, though the words of a
   * difference make no sense as floats.
   */
  public static WordSource joined(WordSource halves) {
    AudioFormat format = halves.format();
    if (format.coding() != SampleCoding.PCM
        || format.containerBits() != HALF_BITS
        || halves.frames() % 2 != 0) {
      throw new IllegalArgumentException(
          format + " with " + halves.frames() + " frames holds no pairs of 32-bit words");
    }
    return new Joined(halves);
  }

  private static final class Halves implements WordSource {
    private final WordSource wide;
    private final AudioFormat format;
    private final long[][] work;
    private final long[] pairs = new long[2 * CHUNK_FRAMES + 2];

    Halves(WordSource wide) {
      this.wide = wide;
      this.format = splitFormat(wide.format());
      this.work = new long[format.channels()][CHUNK_FRAMES + 1];
    }

    @Override
    public AudioFormat format() {
      return format;
    }

    @Override
    public long frames() {
      return 2 * wide.frames();
    }

    @Override
    public void readWords(long firstFrame, int count, long[][] into, int offset)
        throws IOException {
      int odd = (int) (firstFrame & 1);
      for (int done = 0; done < count; ) {
        // pairs may begin or end with a half that is not asked for
        int skip = done == 0 ? odd : 0;
        int n = Math.min(2 * CHUNK_FRAMES - skip, count - done);
        int wideCount = (skip + n + 1) / 2;
        wide.readWords((firstFrame + done) >> 1, wideCount, work, 0);
        for (int c = 0; c < work.length; c++) {
          split(work[c], 0, wideCount, pairs, 0);
          System.arraycopy(pairs, skip, into[c], offset + done, n);
        }
        done += n;
      }
    }
  }

  private static final class Joined implements WordSource {
    private final WordSource halves;
    private final AudioFormat format;
    private final long[][] work;

    Joined(WordSource halves) {
      this.halves = halves;
      AudioFormat half = halves.format();
      this.format = AudioFormat.ieeeFloat(half.sampleRateHz(), half.channels(), 2 * HALF_BITS);
      this.work = new long[format.channels()][2 * CHUNK_FRAMES];
    }

    @Override
    public AudioFormat format() {
      return format;
    }

    @Override
    public long frames() {
      return halves.frames() / 2;
    }

    @Override
    public void readWords(long firstFrame, int count, long[][] into, int offset)
        throws IOException {
      for (int done = 0; done < count; done += CHUNK_FRAMES) {
        int n = Math.min(CHUNK_FRAMES, count - done);
        halves.readWords(2 * (firstFrame + done), 2 * n, work, 0);
        for (int c = 0; c < work.length; c++) {
          join(work[c], 0, into[c], offset + done, n);
        }
      }
    }
  }
}
