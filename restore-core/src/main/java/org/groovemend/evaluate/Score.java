package org.groovemend.evaluate;

/**
 * How near a restored copy came to the sound as it was. Definitions and sources: {@link Scorer}.
 * NaN where a figure has nothing to be measured on.
 *
 * @param sdrBeforeDb on damaged samples, of the damaged copy
 * @param sdrAfterDb the same of the restored copy
 * @param snrBeforeDb of the whole damaged copy
 * @param snrAfterDb of the whole restored copy
 * @param harmDb sound over what made undamaged samples worse, at most 120
 * @param distanceBeforeDb log-spectral distance of the damaged copy
 * @param distanceAfterDb of the restored copy
 * @param prominent how many damaged ranges stand out
 * @param found how many of them a repair touches
 * @param repairs how many ranges were repaired
 * @param falseRepairs how many of them touch no damage
 * @param minutes length
 * @param changedShare samples in repairs, of all, 0 to 1
 */
public record Score(
    double sdrBeforeDb,
    double sdrAfterDb,
    double snrBeforeDb,
    double snrAfterDb,
    double harmDb,
    double distanceBeforeDb,
    double distanceAfterDb,
    int prominent,
    int found,
    int repairs,
    int falseRepairs,
    double minutes,
    double changedShare) {

  public double gainDb() {
    return snrAfterDb - snrBeforeDb;
  }

  /** Share of prominent damage that was found. */
  public double recall() {
    return prominent == 0 ? Double.NaN : found / (double) prominent;
  }

  /** Share of repairs that were of damage. */
  public double precision() {
    return repairs == 0 ? Double.NaN : 1 - falseRepairs / (double) repairs;
  }

  public double falsePerMinute() {
    return falseRepairs / minutes;
  }
}
