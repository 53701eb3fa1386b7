package org.groovemend.levels;

import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;

/**
 * How much higher or lower things get behind a curve, in dB.
 *
 * @param mostDb greatest gain of the curve, 20 Hz to 20 kHz, re 1 kHz: what music may rise by at
 *     worst, if its loudest part lies there
 * @param leastDb least gain: what the treble of a flat transfer stands higher by, before
 * @param clickDb peak of a click of 0.1 ms behind the curve re before
 */
public record CurveRoom(double mostDb, double leastDb, double clickDb) {
  private static final int RATE = 192_000;
  private static final double CLICK_SECONDS = 1e-4;
  private static final int POINTS = 300;

  /** Of a curve with unit gain at 1 kHz. */
  public static CurveRoom of(PlaybackCurve curve) {
    double most = Double.NEGATIVE_INFINITY;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i <= POINTS; i++) {
      double db = curve.gainDb(20 * StrictMath.pow(1000, i / (double) POINTS));
      most = Math.max(most, db);
      least = Math.min(least, db);
    }
    double[] click = new double[RATE / 100];
    for (int i = 0; i < CLICK_SECONDS * RATE; i++) {
      click[i] = 1;
    }
    double[] behind = new double[click.length];
    PlaybackFilter.design(curve, RATE).forward().fromRest(click, behind, 0, click.length);
    double peak = 0;
    for (double v : behind) {
      peak = Math.max(peak, Math.abs(v));
    }
    return new CurveRoom(most, least, Level.db(peak));
  }
}
