package org.groovemend.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Gathers repaired places for the picture of the disc, in the order of their first frame. Memory is
 * bounded: from {@value #MOST_SINGLE} places on, only their density is kept.
 *
 * <p>Repairs of one kind that begin within {@value #TOGETHER_SECONDS} s of one another, on
 * whichever wall, are one place.
 */
public final class DiscMarksBuilder {

  static final int MOST_SINGLE = 6000;

  /** Cells of the density along a side of the square. */
  static final int CELLS = 200;

  private static final double TOGETHER_SECONDS = 0.004;

  private final DiscLayout layout;
  private final long together;
  private final Map<DiscMark.Kind, DiscMark> open = new EnumMap<>(DiscMark.Kind.class);
  private final Map<DiscMark.Kind, Long> groups = new EnumMap<>(DiscMark.Kind.class);
  private final Map<DiscMark.Kind, Long> counts = new EnumMap<>(DiscMark.Kind.class);
  private final List<DiscMark> small = new ArrayList<>();
  private final List<DiscMark> thumps = new ArrayList<>();
  private final int[][] density = new int[CELLS][CELLS];
  private boolean dense;

  public DiscMarksBuilder(DiscLayout layout) {
    this.layout = layout;
    this.together = (long) (TOGETHER_SECONDS * layout.sampleRateHz());
  }

  /**
   * One repair.
   *
   * @throws IllegalArgumentException if it lies outside the side
   */
  public void add(DiscMark.Kind kind, long frame, double strength) {
    if (frame < 0 || frame >= layout.frames()) {
      throw new IllegalArgumentException("frame " + frame + " is outside 0 to " + layout.frames());
    }
    DiscMark mark =
        new DiscMark(kind, frame, Double.isNaN(strength) ? Double.NEGATIVE_INFINITY : strength);
    DiscMark before = open.get(kind);
    if (before != null && frame - groups.get(kind) <= together) {
      if (mark.strength() > before.strength()) {
        open.put(kind, mark);
      }
      return;
    }
    close(before);
    open.put(kind, mark);
    groups.put(kind, frame);
  }

  private void close(DiscMark mark) {
    if (mark == null) {
      return;
    }
    counts.merge(mark.kind(), 1L, Long::sum);
    if (mark.kind() == DiscMark.Kind.THUMP) {
      if (thumps.size() < MOST_SINGLE) {
        thumps.add(mark);
      }
      return;
    }
    density[cell(-layout.upMm(mark.frame()))][cell(layout.rightMm(mark.frame()))]++;
    if (!dense) {
      small.add(mark);
      if (small.size() > MOST_SINGLE) {
        small.clear();
        dense = true;
      }
    }
  }

  private int cell(double mm) {
    double place = (mm / layout.outerMm() + 1) / 2 * CELLS;
    return (int) Math.max(0, Math.min(CELLS - 1, Math.floor(place)));
  }

  DiscMarks build() {
    open.values().forEach(this::close);
    open.clear();
    List<DiscMark> single = new ArrayList<>(small);
    single.addAll(thumps);
    single.sort(Comparator.comparingLong(DiscMark::frame).thenComparing(DiscMark::kind));
    return new DiscMarks(counts, single, dense ? density : null);
  }
}
