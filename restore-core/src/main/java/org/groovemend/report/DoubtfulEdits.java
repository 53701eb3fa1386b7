package org.groovemend.report;

import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;

/**
 * Keeps the edits whose detector was least sure: smallest margin of the statistic over its
 * threshold.
 *
 * <p>Edits may come in any order; the result depends only on the edits. Memory for {@code keep}
 * lines.
 */
public final class DoubtfulEdits {

  /** The rule in words, for the page. */
  public static final String RULE =
      "Here the detector's statistic stands least above its threshold: listen to these places first. The threshold is lower where"
          + " the other channel is damaged at the same place.";

  private static final Comparator<EditLine> ORDER =
      Comparator.comparingDouble(EditLine::margin)
          .thenComparingLong(EditLine::start)
          .thenComparingInt(EditLine::channel)
          .thenComparing(EditLine::stage)
          .thenComparingLong(EditLine::end);

  private final int keep;
  private final TreeSet<EditLine> least = new TreeSet<>(ORDER);

  /**
   * @param keep at least 1
   */
  public DoubtfulEdits(int keep) {
    if (keep < 1) {
      throw new IllegalArgumentException("keep " + keep + " is below 1");
    }
    this.keep = keep;
  }

  public void offer(EditLine line) {
    if (least.size() < keep || ORDER.compare(line, least.last()) < 0) {
      least.add(line);
      if (least.size() > keep) {
        least.pollLast();
      }
    }
  }

  /** Most doubtful first. */
  public List<EditLine> lines() {
    return List.copyOf(least);
  }
}
