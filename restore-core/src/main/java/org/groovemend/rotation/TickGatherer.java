package org.groovemend.rotation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Takes repaired places in the order of their first frame and keeps the strongest of every second.
 *
 * <p>Places that begin within {@value #TOGETHER_SECONDS} s of one another are one tick, on
 * whichever wall: one blow marks both. Memory is bounded by {@value #MOST} ticks, whatever the
 * length of the side: on a long side fewer of each second are kept.
 */
public final class TickGatherer {

  /** Ticks of a second to begin with. */
  static final int A_SECOND = 24;

  static final int MOST = 1 << 14;

  private static final double TOGETHER_SECONDS = 0.004;

  private static final Comparator<Tick> STRONGEST_FIRST =
      Comparator.comparingDouble(Tick::strength).reversed().thenComparingLong(Tick::frame);

  private final int rate;
  private final long together;
  private int aSecond = A_SECOND;
  private List<Tick> kept = new ArrayList<>();
  private final List<Tick> second = new ArrayList<>();
  private long group = -1;
  private Tick strongest;
  private long seen;

  /**
   * Begins a side.
   *
   * @param sampleRateHz frames a second
   */
  public TickGatherer(int sampleRateHz) {
    if (sampleRateHz < 1) {
      throw new IllegalArgumentException("sampling rate " + sampleRateHz + " is not positive");
    }
    rate = sampleRateHz;
    together = (long) (TOGETHER_SECONDS * sampleRateHz);
  }

  /**
   * One repaired place.
   *
   * @param frame first damaged frame, not before that of the call before
   * @param strength larger is more certain; NaN counts as least
   */
  public void add(long frame, double strength) {
    if (frame < 0 || strongest != null && frame < group) {
      throw new IllegalArgumentException("place at frame " + frame + " is out of order");
    }
    double known = Double.isNaN(strength) ? Double.NEGATIVE_INFINITY : strength;
    if (strongest != null && frame - group <= together) {
      if (known > strongest.strength()) {
        strongest = new Tick(frame, known);
      }
      return;
    }
    closeGroup();
    group = frame;
    strongest = new Tick(frame, known);
  }

  private void closeGroup() {
    if (strongest == null) {
      return;
    }
    seen++;
    if (!second.isEmpty() && second.get(0).frame() / rate != strongest.frame() / rate) {
      closeSecond();
    }
    second.add(strongest);
  }

  private void closeSecond() {
    kept.addAll(strongest(second, aSecond));
    second.clear();
    while (kept.size() > MOST && aSecond > 1) {
      aSecond /= 2;
      kept = thinned(kept, aSecond);
    }
  }

  /** All ticks seen, whether kept or not. */
  public long seen() {
    return seen + (strongest == null ? 0 : 1);
  }

  /** The ticks kept, in order; the gatherer is at its end then. */
  public List<Tick> ticks() {
    closeGroup();
    strongest = null;
    closeSecond();
    return List.copyOf(kept);
  }

  int sampleRateHz() {
    return rate;
  }

  /** The strongest of every second, in order of time. */
  List<Tick> thinned(List<Tick> ticks, int most) {
    List<Tick> left = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= ticks.size(); i++) {
      if (i == ticks.size() || ticks.get(i).frame() / rate != ticks.get(from).frame() / rate) {
        left.addAll(strongest(ticks.subList(from, i), most));
        from = i;
      }
    }
    return left;
  }

  private static List<Tick> strongest(List<Tick> ticks, int most) {
    if (ticks.size() <= most) {
      return List.copyOf(ticks);
    }
    return ticks.stream()
        .sorted(STRONGEST_FIRST)
        .limit(most)
        .sorted(Comparator.comparingLong(Tick::frame))
        .toList();
  }
}
