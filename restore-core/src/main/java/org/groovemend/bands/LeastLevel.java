package org.groovemend.bands;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.robust.Median;

/**
 * Places where a side is quieter than around, for joins that have no gap: between applause and the
 * next piece, in a fade from one into the other. Such a place is never certain.
 */
final class LeastLevel {

  private static final double LOUDNESS_HZ = 141;
  private static final double BOX_SECONDS = 0.35;
  private static final double AROUND_SECONDS = 8;
  private static final double RISE_DB = 2;
  private static final double RISE_SECONDS = 2.5;

  /** Shallower dips are found in any music. */
  private static final double SHALLOW_DB = 6;

  private static final double MOST_CONFIDENCE = 0.45;
  private static final int MOST_PLACES = 20;

  private final CellLevels levels;
  private final double cellSeconds;
  private final double[] box;
  private final double[] level;

  LeastLevel(BandSurvey survey) {
    this.levels = survey.levels();
    this.cellSeconds = levels.hop() / (double) survey.sampleRateHz();
    this.level = new double[levels.cells()];
    Arrays.setAll(level, this::loudness);
    this.box = new double[level.length];
    int half = cells(BOX_SECONDS / 2);
    double[] sum = new double[level.length + 1];
    for (int i = 0; i < level.length; i++) {
      sum[i + 1] = sum[i] + level[i];
    }
    for (int i = 0; i < level.length; i++) {
      int from = Math.max(0, i - half);
      int to = Math.min(level.length, i + half + 1);
      box[i] = (sum[to] - sum[from]) / (to - from);
    }
  }

  /** All rows from 140 Hz on together, dB: what stands out is what is heard. */
  private double loudness(int cell) {
    double power = 1e-14;
    for (int r = 0; r < levels.rows(); r++) {
      if (levels.above(r, LOUDNESS_HZ)) {
        power += StrictMath.pow(10, levels.level(r, cell) / 10);
      }
    }
    return 10 * StrictMath.log10(power);
  }

  /** The quietest place between two frames, or null if the side is too short to tell. */
  BandPlan.QuietPlace within(long fromFrame, long toFrame, long preRoll) {
    if (levels.cells() == 0) {
      return null;
    }
    int from = levels.cellAt(fromFrame);
    int to = levels.cellAt(toFrame);
    int least = from;
    for (int i = from; i <= to; i++) {
      if (box[i] < box[least]) {
        least = i;
      }
    }
    return place(least, preRoll);
  }

  private BandPlan.QuietPlace place(int least, long preRoll) {
    double depth = Math.min(around(least, -1), around(least, 1)) - box[least];
    double confidence = Math.max(0.02, Math.min(MOST_CONFIDENCE, depth / 60));
    int onset = onset(least);
    long frame = levels.middle(least);
    if (onset >= 0) {
      frame = Math.max(frame, levels.middle(onset) - preRoll);
    }
    return new BandPlan.QuietPlace(frame, confidence, Math.max(0, depth));
  }

  /** Where most rows get louder at once, soon after a place, or shortly before; -1 if none do. */
  private int onset(int least) {
    int before = cells(0.5);
    int after = cells(0.25);
    int from = Math.max(before, least - cells(0.3));
    int to = Math.min(least + cells(RISE_SECONDS), level.length - after);
    int best = -1;
    double most = RISE_DB;
    for (int i = from; i < to; i++) {
      double sum = 0;
      int n = 0;
      for (int r = 0; r < levels.rows(); r++) {
        if (levels.above(r, LOUDNESS_HZ)) {
          double rise = mean(r, i, i + after) - mean(r, i - before, i);
          sum += Math.max(0, rise);
          n++;
        }
      }
      if (sum / n > most) {
        most = sum / n;
        best = i;
      }
    }
    return best;
  }

  private double mean(int row, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += levels.level(row, i);
    }
    return sum / (to - from);
  }

  /** Median level on one side of a cell. */
  private double around(int cell, int direction) {
    int reach = cells(AROUND_SECONDS);
    int from = Math.max(0, direction < 0 ? cell - reach : cell + 1);
    int to = Math.min(box.length, direction < 0 ? cell : cell + 1 + reach);
    if (to <= from) {
      return box[cell];
    }
    double[] of = Arrays.copyOfRange(box, from, to);
    return Median.of(of, 0, of.length);
  }

  /**
   * The deepest places, in order, that are as far from each other and from given frames as bands
   * are long.
   *
   * @param apart least distance, frames
   */
  List<BandPlan.QuietPlace> deepest(List<Long> taken, long apart, long preRoll) {
    List<BandPlan.QuietPlace> all = new ArrayList<>();
    int reach = cells(1);
    for (int i = 0; i < box.length; i++) {
      boolean lowest = true;
      for (int k = Math.max(0, i - reach);
          k <= Math.min(box.length - 1, i + reach) && lowest;
          k++) {
        lowest = box[i] < box[k] || k == i || box[i] == box[k] && i < k;
      }
      if (lowest) {
        BandPlan.QuietPlace place = place(i, preRoll);
        if (place.depthDb() >= SHALLOW_DB) {
          all.add(place);
        }
      }
    }
    all.sort((a, b) -> Double.compare(b.depthDb(), a.depthDb()));
    List<BandPlan.QuietPlace> kept = new ArrayList<>();
    List<Long> near = new ArrayList<>(taken);
    for (BandPlan.QuietPlace place : all) {
      if (kept.size() < MOST_PLACES
          && near.stream().allMatch(f -> Math.abs(f - place.frame()) >= apart)) {
        kept.add(place);
        near.add(place.frame());
      }
    }
    kept.sort((a, b) -> Long.compare(a.frame(), b.frame()));
    return kept;
  }

  private int cells(double seconds) {
    return Math.max(1, (int) Math.round(seconds / cellSeconds));
  }
}
