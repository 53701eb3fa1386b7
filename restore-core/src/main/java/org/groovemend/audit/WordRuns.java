package org.groovemend.audit;

import org.groovemend.measure.Decibels;

/** Joins words of one channel that have the same explanation and lie together; forwards. */
final class WordRuns {

  /** Words further apart are two places. */
  private static final long GAP = 8;

  private final int channel;
  private final DifferenceList list;
  private Difference.Kind kind;
  private String explanation;
  private long key;
  private long from = -1;
  private long last;
  private long changed;
  private double peak;
  private double power;

  WordRuns(int channel, DifferenceList list) {
    this.channel = channel;
    this.list = list;
  }

  /**
   * The next word.
   *
   * @param key what joins words: the same for one explanation
   * @param joined true to join however far apart
   */
  void add(
      long frame,
      double difference,
      Difference.Kind kind,
      long key,
      boolean joined,
      String explanation) {
    if (from >= 0 && (key != this.key || !joined && frame - last > GAP)) {
      close();
    }
    if (from < 0) {
      from = frame;
      this.kind = kind;
      this.key = key;
      this.explanation = explanation;
      changed = 0;
      peak = 0;
      power = 0;
    }
    last = frame;
    changed++;
    peak = Math.max(peak, Math.abs(difference));
    power += difference * difference;
  }

  void close() {
    if (from >= 0) {
      list.add(
          new Difference(
              from,
              last + 1,
              channel,
              kind,
              changed,
              Decibels.ofAmplitude(peak),
              Decibels.ofPower(power / (last + 1 - from)),
              Double.NaN,
              explanation));
    }
    from = -1;
  }
}
