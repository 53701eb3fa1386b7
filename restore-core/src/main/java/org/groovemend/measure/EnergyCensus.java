package org.groovemend.measure;

/** Gathers an {@link EnergyChange}; memory does not grow with the number of places. */
final class EnergyCensus {

  private static final double MOST_DB = 20;
  private static final int PER_DB = 100;

  private final long[] changes = new long[(int) (MOST_DB - EnergyChange.LEAST_DB) * PER_DB + 1];
  private final long[] ifStayed = new long[changes.length];
  private final long[] chance = new long[changes.length];
  private long count;
  private long repaired;
  private double worst = Double.NaN;
  private long worstFrame;

  /**
   * One place.
   *
   * @param frame where it begins
   * @param before mean square with the groove's, above {@code groove.before()}
   * @param after the same after
   * @param spread of the groove's energy over such a place, over its mean
   */
  void add(
      long frame,
      double before,
      double after,
      GrooveEnergy groove,
      double spread,
      boolean touched) {
    double music = before - groove.before();
    double change = db((after - groove.after()) / music);
    count(changes, change);
    count(ifStayed, db((after - groove.before()) / music));
    // noise of power N with music of power M: noncentral chi-square, of variance 2 (N² + 2 N M) /
    // n,
    // while noise alone has 2 N² / n: that is its spread squared
    double noise = groove.before();
    double wavering = spread * Math.sqrt(noise * noise + 2 * noise * music) / music;
    count(chance, 10 / StrictMath.log(10) * wavering);
    if (count == 0 || change < worst) {
      worst = change;
      worstFrame = frame;
    }
    count++;
    repaired += touched ? 1 : 0;
  }

  private static double db(double ratio) {
    return ratio > 0
        ? Math.max(EnergyChange.LEAST_DB, Decibels.ofPower(ratio))
        : EnergyChange.LEAST_DB;
  }

  private static void count(long[] histogram, double db) {
    double clamped = Math.max(EnergyChange.LEAST_DB, Math.min(MOST_DB, db));
    histogram[(int) Math.round((clamped - EnergyChange.LEAST_DB) * PER_DB)]++;
  }

  private double median(long[] histogram) {
    long below = 0;
    for (int i = 0; i < histogram.length; i++) {
      below += histogram[i];
      if (2 * below > count) {
        return (i + EnergyChange.LEAST_DB * PER_DB) / PER_DB;
      }
    }
    return Double.NaN;
  }

  EnergyChange change() {
    return new EnergyChange(
        count, repaired, median(changes), median(ifStayed), worst, worstFrame, median(chance));
  }
}
