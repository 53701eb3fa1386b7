package org.groovemend.audit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Gathers differences: counts all, lists the first. */
final class DifferenceList {
  /** Ranges that are listed. */
  static final int MOST = 10_000;

  private final List<Difference> kept = new ArrayList<>();
  private final Map<Difference.Kind, Long> counts = new EnumMap<>(Difference.Kind.class);
  private long count;
  private long frames;
  private long samples;

  void add(Difference d) {
    count++;
    frames += d.to() - d.from();
    samples += d.changed();
    counts.merge(d.kind(), 1L, Long::sum);
    if (kept.size() < MOST) {
      kept.add(d);
    }
  }

  long count() {
    return count;
  }

  /** Lengths of all ranges together, channels counted one by one. */
  long frames() {
    return frames;
  }

  long samples() {
    return samples;
  }

  Map<Difference.Kind, Long> counts() {
    return Collections.unmodifiableMap(new EnumMap<>(counts));
  }

  /** By beginning, then by channel. */
  List<Difference> list() {
    List<Difference> sorted = new ArrayList<>(kept);
    sorted.sort(Comparator.comparingLong(Difference::from).thenComparingInt(Difference::channel));
    return List.copyOf(sorted);
  }
}
