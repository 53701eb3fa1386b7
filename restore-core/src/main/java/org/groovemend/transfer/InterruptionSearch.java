package org.groovemend.transfer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/**
 * Finds zeroed, held and repeated blocks of words.
 *
 * <p>Evidence is the number of words that agree exactly, each weighed by how likely that is by
 * chance: 1 / (sqrt(2 pi) s) for a normal density of spread s steps of the words, where s is what
 * the last {@value #NEIGHBOURS} frames leave unpredicted (for equality with another word) or their
 * level (for equality with zero). A place counts if chance would make fewer than one in {@value
 * #SIDES} sides show it. So short blocks are found in loud sound and fine words, longer ones only
 * in soft sound and coarse words; silence is never one.
 */
public final class InterruptionSearch implements BlockMeter {

  /** Frames looked back for a repeated block. */
  static final int REACH = 1 << 15;

  private static final double SIDES = 1e4;

  /** Longest zeroed or held stretch that is an interruption and not a pause, in seconds. */
  static final double LONGEST_SECONDS = 0.1;

  private static final int NEIGHBOURS = 256;
  private static final int TABLE = 1 << 15;

  /** Entries of the table hold a frame and so many bits of its key. */
  private static final int TAG_BITS = 20;

  private static final long TAG = (1L << TAG_BITS) - 1;

  /** Frames that are kept back so that what follows a run can be seen. */
  private static final int AHEAD = NEIGHBOURS + 8;

  /** Most that are kept; counts go on. */
  static final int MOST_KEPT = 1000;

  /** A seam is a jump of this many mean steps. */
  private static final double JUMP = 2;

  /** A single zero wants jumps of that many mean steps on both sides in all channels. */
  private static final double LONE_JUMP = 5;

  /** Of all places, about so many show such jumps: damage of the groove. */
  private static final double LONE_SHARE = 1e-2;

  /** Samples of float formats are weighed like words of 24 bits, but compared finer than that. */
  private static final double FLOAT_SCALE = 0x1p31;

  private static final double FLOAT_STEP = 0x1p8;

  private static final double CLIPPED = 0.9;

  private final boolean integers;
  private final int channels;
  private final long longest;
  private final double chances;
  private final long[][] held;
  private final long[] mixed = new long[REACH + (1 << 16)];
  private final long[] table = new long[TABLE];
  private final List<Interruption> found = new ArrayList<>();
  private final Run[] runs;
  private final long[] peaks;
  private final long[] finest;
  private final LocalSpread spread = new LocalSpread(NEIGHBOURS);
  private long base;
  private int length;
  private long next;
  private long everSet;
  private long count;
  private long lag;
  private long matchStart;
  private Interruption open;

  /** A constant run under way. */
  private static final class Run {
    long start;
    long word;
  }

  /**
   * @param frames length of the side: how often chance has a try
   */
  public InterruptionSearch(AudioFormat format, long frames) {
    integers = format.coding() == SampleCoding.PCM;
    channels = format.channels();
    longest = format.frames(LONGEST_SECONDS);
    chances = StrictMath.log(Math.max(2, frames) * SIDES);
    held = new long[channels][REACH + (1 << 16)];
    java.util.Arrays.fill(table, -1);
    runs = new Run[channels];
    peaks = new long[channels];
    finest = new long[channels];
    java.util.Arrays.fill(finest, Long.MAX_VALUE);
    for (int c = 0; c < channels; c++) {
      runs[c] = new Run();
    }
  }

  @Override
  public void accept(long[][] words, double[][] samples, int blockFrames) {
    for (int done = 0; done < blockFrames; ) {
      int n = Math.min(blockFrames - done, 1 << 14);
      make(n);
      for (int c = 0; c < channels; c++) {
        take(words[c], samples[c], done, n, held[c]);
      }
      length += n;
      done += n;
      scan(base + length - AHEAD);
    }
  }

  private void take(long[] words, double[] samples, int from, int n, long[] into) {
    if (!integers) {
      for (int i = 0; i < n; i++) {
        into[length + i] = Math.round(samples[from + i] * FLOAT_SCALE);
      }
      return;
    }
    System.arraycopy(words, from, into, length, n);
    long set = everSet;
    for (int i = from; i < from + n; i++) {
      set |= words[i];
    }
    everSet = set;
  }

  /** Makes room for the next frames; the last {@value #REACH} stay. */
  private void make(int n) {
    if (length + n <= held[0].length) {
      return;
    }
    int drop = length - REACH;
    for (long[] channel : held) {
      System.arraycopy(channel, drop, channel, 0, length - drop);
    }
    System.arraycopy(mixed, drop, mixed, 0, length - drop);
    base += drop;
    length -= drop;
  }

  private void scan(long to) {
    if (to <= next) {
      return;
    }
    mix(to);
    for (; next < to; next++) {
      int i = (int) (next - base);
      boolean same = next > 0;
      for (int c = 0; c < channels; c++) {
        long word = held[c][i];
        if (word == runs[c].word && next > 0) {
          continue;
        }
        same = false;
        if (next > 0) {
          // a run of one word other than zero tells nothing
          if (runs[c].word == 0 || next - runs[c].start > 1) {
            endOfRun(c, i);
          }
          finest[c] = Math.min(finest[c], Math.abs(word - runs[c].word));
        }
        runs[c].start = next;
        runs[c].word = word;
        peaks[c] = Math.max(peaks[c], Math.abs(word));
      }
      if (next > 0) {
        repeats(i, same);
      }
    }
  }

  /** One number for the words of each frame, for quick comparing. */
  private void mix(long to) {
    int from = (int) (next - base);
    int end = (int) (to - base);
    long[] first = held[0];
    long[] last = held[channels - 1];
    for (int i = from; i < end; i++) {
      mixed[i] = first[i] * 0x9e3779b97f4a7c15L + last[i] * 0xbf58476d1ce4e5b9L;
    }
  }

  // runs of one word

  private void endOfRun(int c, int end) {
    Run run = runs[c];
    long frames = next - run.start;
    boolean zero = run.word == 0;
    if (run.start == 0 || frames > longest || frames < 2 && !zero) {
      return;
    }
    if (frames == 1) {
      if (c == channels - 1 && channels > 1) {
        loneZero(end);
      }
      return;
    }
    int start = (int) (run.start - base);
    if (start < 4) {
      return; // longer than what is kept: far above the longest
    }
    spread.measure(held[c], start, end, length, step(c));
    // clipping lies at the extreme of a channel, as far as that is known by then
    if (Math.abs(run.word) >= CLIPPED * peaks[c] && isTop(held[c], start, end, run.word)) {
      return;
    }
    double nats = (frames - 1) * spread.natsForEqual() + (zero ? spread.natsForZero() : 0);
    offer(
        new Interruption(
            zero ? Interruption.Kind.ZEROED : Interruption.Kind.HELD,
            c,
            run.start,
            frames,
            0,
            nats));
  }

  /** A single zero in every channel at once. */
  private void loneZero(int end) {
    double nats = StrictMath.log(1 / LONE_SHARE);
    for (int c = 0; c < channels; c++) {
      if (end < 4 || held[c][end - 1] != 0 || held[c][end - 2] == 0 || held[c][end] == 0) {
        return;
      }
      spread.measure(held[c], end - 1, end, length, step(c));
      double least = Math.min(Math.abs(held[c][end - 2]), Math.abs(held[c][end]));
      if (least < LONE_JUMP * spread.meanStep()) {
        return;
      }
      nats += spread.natsForZero();
    }
    add(new Interruption(Interruption.Kind.ZEROED, -1, next - 1, 1, 0, nats));
  }

  /** A flat top. */
  private static boolean isTop(long[] w, int start, int end, long word) {
    int from = Math.max(0, start - 32);
    boolean most = true;
    boolean least = true;
    for (int i = from; i < end + 32; i++) {
      most &= w[i] <= word;
      least &= w[i] >= word;
    }
    return most || least;
  }

  /** Joins what happens in both channels at once. */
  private void offer(Interruption one) {
    if (open != null
        && open.channel() != one.channel()
        && open.kind() == one.kind()
        && Math.abs(open.frame() - one.frame()) <= 1
        && Math.abs(open.frames() - one.frames()) <= 1) {
      Interruption both =
          new Interruption(
              one.kind(),
              -1,
              Math.min(open.frame(), one.frame()),
              Math.max(open.frames(), one.frames()),
              0,
              open.nats() + one.nats());
      open = null;
      add(both);
      return;
    }
    flush();
    open = one;
  }

  private void flush() {
    if (open != null) {
      add(open);
      open = null;
    }
  }

  // repeated blocks

  private void repeats(int i, boolean same) {
    if (lag > 0) {
      if (i - lag >= 0 && mixed[i] == mixed[(int) (i - lag)]) {
        note(i, same);
        return;
      }
      endOfMatch(i);
      lag = 0;
    }
    if (same) {
      return;
    }
    long key = key(i);
    int slot = slot(key);
    long entry = table[slot];
    long at = entry >> TAG_BITS;
    // the tag spares a look at words far away
    if ((entry & TAG) == (key & TAG)
        && at > base
        && mixed[i] == mixed[(int) (at - base)]
        && next - at < REACH - AHEAD
        && next - at > 1
        && matches(i, (int) (at - base))) {
      lag = next - at;
      matchStart = next - 1;
    }
    table[slot] = next << TAG_BITS | key & TAG;
  }

  private void note(int i, boolean same) {
    if (!same) {
      long key = key(i);
      table[slot(key)] = next << TAG_BITS | key & TAG;
    }
  }

  private boolean matches(int i, int j) {
    for (int c = 0; c < channels; c++) {
      if (held[c][i] != held[c][j] || held[c][i - 1] != held[c][j - 1]) {
        return false;
      }
    }
    return true;
  }

  private long key(int i) {
    return (mixed[i] ^ mixed[i - 1] >>> 17) * 0x94d049bb133111ebL;
  }

  private static int slot(long key) {
    return (int) (key >>> 49);
  }

  private void endOfMatch(int end) {
    long frames = next - matchStart;
    int start = (int) (matchStart - base);
    if (start < 4) {
      return; // repeats itself for longer than what is kept: a tone
    }
    double nats = 0;
    boolean seam = false;
    for (int c = 0; c < channels; c++) {
      spread.measure(held[c], start, start, length, step(c));
      nats += frames * spread.natsForEqual();
      double jump = Math.abs(held[c][start] - held[c][start - 1]);
      seam |= jump > JUMP * spread.meanStep();
    }
    // what goes on repeating itself without a seam is a tone
    if (frames > 2.5 * lag && !seam) {
      return;
    }
    if (nats > chances + StrictMath.log(REACH)) {
      add(new Interruption(Interruption.Kind.REPEATED, -1, matchStart, frames, lag, nats));
    }
  }

  /**
   * Step of the words: the lowest bit in use, but not less than the least that neighbours ever
   * differed by: coarse words times a gain use every bit and still know few values.
   */
  private double step(int c) {
    double lowest = !integers ? FLOAT_STEP : everSet != 0 ? Long.lowestOneBit(everSet) : 1;
    return Math.max(lowest, finest[c] == Long.MAX_VALUE ? 0 : finest[c]);
  }

  private void add(Interruption one) {
    if (!(one.nats() > chances)) {
      return;
    }
    count++;
    if (found.size() < MOST_KEPT) {
      found.add(one);
    }
  }

  /** After the last block. */
  public Interruptions finish() {
    scan(base + length);
    flush();
    List<Interruption> sorted = new ArrayList<>(found);
    sorted.sort(Comparator.comparingLong(Interruption::frame).thenComparing(Interruption::kind));
    return new Interruptions(count, sorted);
  }
}
