package org.groovemend.measure;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.robust.Median;

/**
 * How loud a side is, slot by slot: mean square above {@value #FROM_HERTZ} Hz over all channels, so
 * that offset and rumble do not count.
 *
 * <p>A slot is {@value #SLOT_SECONDS} s; on sides of more than {@value #MOST_SLOTS} slots it is
 * longer, so that memory does not grow with length. Any cutting into blocks gives the same result.
 */
public final class LevelTrack {

  public static final double SLOT_SECONDS = 0.1;
  static final int MOST_SLOTS = 1 << 16;
  private static final double FROM_HERTZ = 100;

  private final long frames;
  private final int slotFrames;
  private final HighPass[] filters;
  private final double[][] power;
  private final boolean[] sounding;
  private long position;

  /**
   * @param frames length of the side
   */
  public LevelTrack(AudioFormat format, long frames) {
    this.frames = frames;
    long least = (frames + MOST_SLOTS - 1) / MOST_SLOTS;
    slotFrames = (int) Math.max(format.frames(SLOT_SECONDS), least);
    int slots = (int) ((frames + slotFrames - 1) / slotFrames);
    power = new double[format.channels()][slots];
    sounding = new boolean[slots];
    filters = new HighPass[format.channels()];
    for (int c = 0; c < filters.length; c++) {
      filters[c] = new HighPass(FROM_HERTZ, format.sampleRateHz());
    }
  }

  /** The next {@code count} frames of {@code samples[channel]}, full scale 1.0. */
  public void accept(double[][] samples, int count) {
    if (position + count > frames) {
      throw new IllegalArgumentException("more than the " + frames + " frames announced");
    }
    for (int done = 0; done < count; ) {
      int slot = slotOf(position);
      int n = (int) Math.min(count - done, end(slot) - position);
      for (int c = 0; c < filters.length; c++) {
        double sum = power[c][slot];
        boolean heard = false;
        HighPass filter = filters[c];
        double[] x = samples[c];
        for (int i = done; i < done + n; i++) {
          double y = filter.next(x[i]);
          sum += y * y;
          heard |= x[i] != 0;
        }
        power[c][slot] = sum;
        sounding[slot] |= heard;
      }
      done += n;
      position += n;
    }
  }

  public int slots() {
    return sounding.length;
  }

  public long frames() {
    return frames;
  }

  public int slotFrames() {
    return slotFrames;
  }

  /** First frame of a slot. */
  public long start(int slot) {
    return (long) slot * slotFrames;
  }

  /** Frame behind a slot. */
  public long end(int slot) {
    return Math.min(frames, start(slot + 1));
  }

  /** The slot in which a frame lies. */
  public int slotOf(long frame) {
    return (int) (frame / slotFrames);
  }

  /** Mean square of a slot. */
  public double meanSquare(int slot) {
    return meanSquare(slot, slot + 1);
  }

  /** Mean square of the slots {@code [from, to)}. */
  public double meanSquare(int from, int to) {
    double sum = 0;
    for (double[] channel : power) {
      for (int i = from; i < to; i++) {
        sum += channel[i];
      }
    }
    return sum / ((double) (end(to - 1) - start(from)) * filters.length);
  }

  /** True if every sample of the slot was zero. */
  public boolean silent(int slot) {
    return !sounding[slot];
  }

  /**
   * Median of the mean squares of the slots that lie wholly within a stretch of frames; NaN if none
   * does.
   */
  public double median(long fromFrame, long toFrame) {
    int from = (int) ((fromFrame + slotFrames - 1) / slotFrames);
    int to = toFrame == frames ? sounding.length : slotOf(toFrame);
    if (from >= to) {
      return Double.NaN;
    }
    double[] of = new double[to - from];
    Arrays.setAll(of, i -> meanSquare(from + i));
    return Median.of(of, 0, of.length);
  }

  /**
   * First slot of the quietest run of slots of which none is digital silence, the first of equals.
   *
   * @param length slots of the run
   * @return -1 if there is none
   */
  public int quietest(int length) {
    int best = -1;
    double least = Double.POSITIVE_INFINITY;
    int whole = 0;
    for (int to = 1; to <= sounding.length; to++) {
      whole = silent(to - 1) ? 0 : whole + 1;
      if (whole >= length) {
        double mean = meanSquare(to - length, to);
        if (mean < least) {
          least = mean;
          best = to - length;
        }
      }
    }
    return best;
  }
}
