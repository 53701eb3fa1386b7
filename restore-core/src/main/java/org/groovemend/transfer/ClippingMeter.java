package org.groovemend.transfer;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.measure.LevelMeter;

/**
 * Finds clipping at any level: runs of equal samples at the extreme of a channel (a converter or a
 * later stage at its end), and extremes that crowd together just below the highest (an analogue
 * stage at its end, whose tops are not quite flat).
 *
 * <p>A run counts as in {@link LevelMeter}: {@value #LEAST_RUN} or more equal samples within 0.1 %
 * of the channel's largest magnitude. It lies in music if, {@value #NEAR_MS} to {@value #FAR_MS} ms
 * away on both sides, the sound still comes within 6 dB of it; else it is the top of a click.
 */
public final class ClippingMeter implements BlockMeter {

  static final int LEAST_RUN = 3;
  private static final double NEAR_PEAK = 0.999;
  private static final double LOWEST = 0.001;
  static final int NEAR_MS = 2;
  static final int FAR_MS = 20;
  private static final int MOST_KEPT = 200;
  private static final int BINS = 1 << 12;

  /** Crowding: extremes in the top 3 % of the range, and in the 7 % below. */
  private static final double TOP = 0.97;

  private static final double BELOW = 0.9;
  private static final double FAR_BELOW = 0.8;

  private static final int LEAST_CROWD = 50;

  /** Extremes of sound grow rarer upwards: the top holds fewer than what is below it. */
  private static final double CROWDED = 1.5;

  private final Channel[] channels;
  private final int millisecond;

  public ClippingMeter(int sampleRateHz, int channels) {
    millisecond = Math.max(1, sampleRateHz / 1000);
    this.channels = new Channel[channels];
    for (int c = 0; c < channels; c++) {
      this.channels[c] = new Channel(millisecond);
    }
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    for (int c = 0; c < channels.length; c++) {
      channels[c].accept(samples[c], count);
    }
  }

  /** After the last block; one for each channel. */
  public List<Clipping> finish() {
    List<Clipping> found = new ArrayList<>();
    for (Channel channel : channels) {
      found.add(channel.finish());
    }
    return found;
  }

  /** A run, until it is known what lies around it. */
  private static final class Run {
    final long frame;
    int frames;
    final double level;
    final double before;
    double after;
    boolean judged;

    Run(long frame, double level, double before) {
      this.frame = frame;
      this.level = level;
      this.before = before;
    }

    boolean inMusic() {
      return Math.min(before, after) >= level / 2;
    }
  }

  private static final class Channel {
    private final int millisecond;
    private final double[] recent = new double[FAR_MS + 2];
    private final long[] up = new long[BINS + 1];
    private final long[] down = new long[BINS + 1];
    private final List<Run> kept = new ArrayList<>();
    private final List<Run> waiting = new ArrayList<>();
    private long position;
    private long slot;
    private int inSlot;
    private double slotPeak;
    private double peak;
    private double previous = Double.NaN;
    private double beforeThat = Double.NaN;
    private int run;
    private long runs;
    private long inMusic;
    private int longest;
    private double runPeak;
    private Run current;

    Channel(int millisecond) {
      this.millisecond = millisecond;
    }

    void accept(double[] x, int count) {
      for (int i = 0; i < count; i++) {
        double value = x[i];
        double magnitude = Math.abs(value);
        if (magnitude > peak) {
          peak = magnitude;
        }
        if (value == previous) {
          run++;
          if (run >= LEAST_RUN && magnitude >= NEAR_PEAK * peak && magnitude >= LOWEST) {
            grow(magnitude, position + i);
          }
        } else {
          turn(value);
          run = 1;
          current = null;
        }
        if (magnitude > slotPeak) {
          slotPeak = magnitude;
        }
        if (++inSlot == millisecond) {
          endSlot();
        }
      }
      position += count;
    }

    private void turn(double value) {
      // a turning point: the sample before was above or below both neighbours that differ from it
      if (previous > beforeThat && previous > value && previous > 0) {
        up[bin(previous)]++;
      } else if (previous < beforeThat && previous < value && previous < 0) {
        down[bin(-previous)]++;
      }
      beforeThat = previous;
      previous = value;
    }

    private static int bin(double magnitude) {
      return (int) Math.min(BINS, magnitude * BINS);
    }

    private void grow(double magnitude, long at) {
      if (run == LEAST_RUN) {
        // what was counted near a lower peak was not clipping
        if (runs > 0 && runPeak < NEAR_PEAK * magnitude) {
          runs = 0;
          inMusic = 0;
          longest = 0;
          kept.clear();
          waiting.clear();
        }
        runPeak = magnitude;
        runs++;
        current = new Run(at - LEAST_RUN + 1, magnitude, around());
        waiting.add(current);
        if (kept.size() < MOST_KEPT) {
          kept.add(current);
        }
      }
      if (current != null) {
        current.frames = run;
      }
      longest = Math.max(longest, run);
    }

    /** Largest magnitude of the milliseconds before, but for the nearest. */
    private double around() {
      double most = 0;
      for (int k = NEAR_MS; k <= FAR_MS; k++) {
        long s = slot - k;
        if (s >= 0) {
          most = Math.max(most, recent[(int) (s % recent.length)]);
        }
      }
      return most;
    }

    private void endSlot() {
      recent[(int) (slot % recent.length)] = slotPeak;
      long millis = millisecond;
      for (int k = 0; k < waiting.size(); k++) {
        Run one = waiting.get(k);
        long away = slot - (one.frame + one.frames) / millis;
        if (away >= NEAR_MS) {
          one.after = Math.max(one.after, slotPeak);
        }
        if (away >= FAR_MS) {
          judge(one);
          waiting.remove(k--);
        }
      }
      slot++;
      inSlot = 0;
      slotPeak = 0;
    }

    private void judge(Run one) {
      one.judged = true;
      if (one.inMusic()) {
        inMusic++;
      }
    }

    Clipping finish() {
      waiting.forEach(this::judge);
      boolean stands = runs > 0 && runPeak >= NEAR_PEAK * peak && runPeak >= LOWEST;
      List<Clipping.Place> places = new ArrayList<>();
      if (stands) {
        for (Run one : kept) {
          places.add(new Clipping.Place(one.frame, one.frames, one.inMusic()));
        }
      }
      return new Clipping(
          stands ? runs : 0,
          stands ? inMusic : 0,
          stands ? longest : 0,
          stands ? 20 * StrictMath.log10(runPeak) : Double.NaN,
          crowded(up),
          crowded(down),
          places);
    }

    /** Level at which extremes crowd, dB re full scale; NaN if they do not. */
    private static double crowded(long[] counts) {
      int most = BINS;
      while (most > 0 && counts[most] == 0) {
        most--;
      }
      // bins too coarse for so soft a channel
      if (most * (1 - TOP) < 4) {
        return Double.NaN;
      }
      long top = sum(counts, TOP * most, most + 1);
      long below = sum(counts, BELOW * most, TOP * most);
      long further = sum(counts, FAR_BELOW * most, BELOW * most);
      // a steady tone has all its extremes at one height, and none below
      boolean sound = further + below >= LEAST_CROWD;
      return top >= LEAST_CROWD && sound && top > CROWDED * below
          ? 20 * StrictMath.log10((most + 0.5) / BINS)
          : Double.NaN;
    }

    private static long sum(long[] counts, double from, double to) {
      long sum = 0;
      for (int i = (int) Math.ceil(from); i < to && i < counts.length; i++) {
        sum += counts[i];
      }
      return sum;
    }
  }
}
