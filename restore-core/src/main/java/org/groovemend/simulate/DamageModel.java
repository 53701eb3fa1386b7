package org.groovemend.simulate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Impulses on the groove walls, added to any stretch of a side in any order.
 *
 * <p>Holds a few numbers per impulse, never their samples, so that a long side costs little memory.
 * Cutting a side into other blocks gives the same samples. Not safe for use by several threads at
 * once.
 */
public final class DamageModel {

  /** Below this share of its own peak a pulse no longer counts as damage. */
  private static final double TAIL_SHARE = 0.02;

  private final Transfer transfer;
  private final Turntable turntable;
  private final List<Impulse> impulses;
  private final PulseShaper shaper;
  private final int longest;

  /**
   * @param transfer pickup and converter
   * @param turntable gives the groove speed at each impulse
   * @param impulses in any order
   */
  public DamageModel(Transfer transfer, Turntable turntable, List<Impulse> impulses) {
    this.transfer = transfer;
    this.turntable = turntable;
    List<Impulse> sorted = new ArrayList<>(impulses);
    sorted.sort(Comparator.comparingDouble(Impulse::atFrame));
    this.impulses = List.copyOf(sorted);
    this.shaper = new PulseShaper(transfer);
    int most = 0;
    for (Impulse impulse : sorted) {
      most = Math.max(most, shaper.lengthFrames(impulse.pulse(), speed(impulse)));
    }
    this.longest = most;
  }

  /** Sorted by place. */
  public List<Impulse> impulses() {
    return impulses;
  }

  /**
   * Adds what the impulses contribute to frames {@code firstFrame} to {@code firstFrame + count}.
   *
   * @param into planar, one or two channels; a single channel is the left wall
   * @param offset index in {@code into} of {@code firstFrame}
   */
  public void addTo(double[][] into, int offset, long firstFrame, int count) {
    for (int i = firstFrom((double) (firstFrame - longest - 1)); i < impulses.size(); i++) {
      Impulse impulse = impulses.get(i);
      long start = PulseShaper.firstFrame(impulse.atFrame());
      if (start >= firstFrame + count) {
        break;
      }
      double[] samples = shaper.samples(impulse.atFrame(), impulse.pulse(), speed(impulse));
      int from = (int) Math.max(0, firstFrame - start);
      int to = (int) Math.min(samples.length, firstFrame + count - start);
      for (int c = 0; c < into.length; c++) {
        double wall = impulse.wall(c);
        for (int k = from; k < to; k++) {
          into[c][offset + (int) (start + k - firstFrame)] += wall * samples[k];
        }
      }
    }
  }

  /**
   * The samples that count as damaged: above 2 % of the pulse's own peak on that wall and above
   * {@code floor}.
   *
   * @param floor full scale 1.0; for example a tenth of the surface noise
   * @param channels 1 or 2
   * @param frames length of the side; ranges are cut there
   * @return sorted by start, then channel; pulses wholly below the floor are left out; ranges may
   *     overlap
   */
  public List<DamagedRange> ranges(double floor, int channels, long frames) {
    List<DamagedRange> ranges = new ArrayList<>();
    for (Impulse impulse : impulses) {
      long start = PulseShaper.firstFrame(impulse.atFrame());
      double[] samples = shaper.samples(impulse.atFrame(), impulse.pulse(), speed(impulse));
      double peak = 0;
      for (double sample : samples) {
        peak = Math.max(peak, Math.abs(sample));
      }
      for (int c = 0; c < channels; c++) {
        double wall = Math.abs(impulse.wall(c));
        double limit = Math.max(TAIL_SHARE * peak * wall, floor);
        int first = -1;
        int last = -1;
        for (int k = 0; k < samples.length; k++) {
          if (Math.abs(samples[k]) * wall > limit && start + k >= 0 && start + k < frames) {
            first = first < 0 ? k : first;
            last = k;
          }
        }
        if (first >= 0) {
          ranges.add(
              new DamagedRange(impulse.kind(), c, start + first, start + last + 1, peak * wall));
        }
      }
    }
    ranges.sort(BY_PLACE);
    return List.copyOf(ranges);
  }

  static final Comparator<DamagedRange> BY_PLACE =
      Comparator.comparingLong(DamagedRange::start)
          .thenComparingInt(DamagedRange::channel)
          .thenComparingLong(DamagedRange::end);

  private double speed(Impulse impulse) {
    return turntable.grooveSpeed(impulse.atFrame() / transfer.sampleRateHz());
  }

  /** Index of the first impulse at or after a frame. */
  private int firstFrom(double frame) {
    int low = 0;
    int high = impulses.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (impulses.get(middle).atFrame() < frame) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
