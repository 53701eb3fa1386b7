package org.groovemend.audit;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.measure.Decibels;

/** Joins blocks of one channel that are the same sound at another level. */
final class LevelFollower {
  private static final int MOST = 1000;

  /** A stretch has at least so many blocks. */
  private static final int LEAST_BLOCKS = 2;

  private final int channel;
  private final List<LevelStretch> stretches = new ArrayList<>();
  private long count;
  private long from = -1;
  private long to;
  private int blocks;
  private double firstDb;
  private double lastDb;

  LevelFollower(int channel) {
    this.channel = channel;
  }

  /**
   * The next block.
   *
   * @param gain of it re the model's, or NaN if it is as expected
   */
  void add(long first, int frames, double gain) {
    if (Double.isNaN(gain)) {
      close();
      return;
    }
    double db = Decibels.ofAmplitude(Math.max(1e-9, Math.abs(gain)));
    if (from < 0) {
      from = first;
      firstDb = db;
      blocks = 0;
    }
    to = first + frames;
    lastDb = db;
    blocks++;
  }

  void close() {
    if (from >= 0 && blocks >= LEAST_BLOCKS) {
      count++;
      if (stretches.size() < MOST) {
        stretches.add(new LevelStretch(from, to, channel, firstDb, lastDb));
      }
    }
    from = -1;
  }

  long count() {
    return count;
  }

  List<LevelStretch> stretches() {
    return List.copyOf(stretches);
  }
}
