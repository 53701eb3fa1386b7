package org.groovemend.bands;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.groovemend.simulate.BandedSides;
import org.groovemend.stage.ArrayRanges;

/**
 * Cuts one invented side and compares with the truth: a cut ought to lie the pre-roll before the
 * next band is heard, or behind the first third of a gap that is too short for it.
 *
 * @param joins in truth
 * @param live of them with applause
 * @param alone errors in seconds of the cuts at the joins, found by sound alone; NaN where there is
 *     none within a second
 * @param extra cuts by sound alone where there is no join
 * @param listed errors with a list whose times are wrong by up to a second
 * @param first error of the end of the run-in
 */
record BandTrial(int joins, int live, double[] alone, int extra, double[] listed, double first) {

  static final double LIMIT_SECONDS = 0.1;

  static BandTrial of(BandedSides.Side side, long seed) throws IOException {
    int rate = BandedSides.RATE;
    BandSurvey survey = BandSurvey.of(ArrayRanges.of(rate, side.samples()), done -> {});
    BandPlan found = BandPlanner.plan(survey, BandWish.found());
    double[] alone = errors(found, side);
    long matched = java.util.Arrays.stream(alone).filter(e -> !Double.isNaN(e)).count();
    SplittableRandom wrong = new SplittableRandom(seed);
    List<BandEntry> entries = new ArrayList<>();
    entries.add(new BandEntry(0, Double.NaN, "first"));
    for (BandedSides.Join join : side.joins()) {
      double told = join.onset() / (double) rate + wrong.nextDouble(-1, 1);
      entries.add(new BandEntry(told, Double.NaN, ""));
    }
    BandWish wish =
        new BandWish(new BandList(entries), 0, false, 2, BandWish.PRE_ROLL_SECONDS, true);
    double[] listed = errors(BandPlanner.plan(survey, wish), side);
    int live = (int) side.joins().stream().filter(BandedSides.Join::live).count();
    return new BandTrial(
        side.joins().size(),
        live,
        alone,
        (int) (found.bands().size() - 1 - matched),
        listed,
        (survey.musicStart() - side.first()) / (double) rate);
  }

  private static double[] errors(BandPlan plan, BandedSides.Side side) {
    double[] errors = new double[side.joins().size()];
    List<Long> cuts =
        new ArrayList<>(plan.bands().stream().skip(1).map(BandPiece::firstFrame).toList());
    for (int j = 0; j < errors.length; j++) {
      long truth = truth(side.joins().get(j));
      Long best = null;
      for (Long cut : cuts) {
        if (best == null || Math.abs(cut - truth) < Math.abs(best - truth)) {
          best = cut;
        }
      }
      double error = best == null ? Double.NaN : (best - truth) / (double) BandedSides.RATE;
      errors[j] = Math.abs(error) < 1 ? error : Double.NaN;
      if (Math.abs(error) < 1) {
        cuts.remove(best);
      }
    }
    return errors;
  }

  /** Where a cut ought to be. */
  static long truth(BandedSides.Join join) {
    long preRoll = Math.round(BandWish.PRE_ROLL_SECONDS * BandedSides.RATE);
    long earliest = join.live() ? 0 : join.end() + (join.onset() - join.end()) / 3;
    return Math.max(earliest, join.onset() - preRoll);
  }

  private static boolean right(double[] errors) {
    for (double e : errors) {
      if (!(Math.abs(e) <= LIMIT_SECONDS)) {
        return false;
      }
    }
    return true;
  }

  /** Every join cut in its place and nothing else, by sound alone. */
  boolean rightAlone() {
    return extra == 0 && right(alone);
  }

  /** Every join cut in its place, with a list of rough times. */
  boolean rightListed() {
    return right(listed);
  }
}
