package org.groovemend.review.side;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.listening.ClipSound;
import org.groovemend.listening.Decimator;
import org.groovemend.measure.Decibels;

/**
 * Short sounds of a place, before, after and what was taken away, safe to compare by ear.
 *
 * <p>Before and after are brought to one level, that of what is heard outside the edits: a louder
 * one would seem the better one, and a click would make the place before seem louder than it is. If
 * wanted they are left at one gain instead. No version passes {@value #CEILING_DB} dBFS, what was
 * taken away, which is pops between silence, not {@value #REMOVED_CEILING_DB} dBFS; all begin and
 * end softly.
 */
public final class Clips {

  public static final double LEVEL_DB = -23;
  public static final double CEILING_DB = -3;
  public static final double REMOVED_CEILING_DB = -12;
  public static final double MOST_GAIN_DB = 24;

  /** A greater difference is left as it is, and told. */
  public static final double MOST_MATCHED_DB = 12;

  public static final double LONGEST_SECONDS = 20;
  private static final double FADE_SECONDS = 0.03;
  private static final double REMOVED_FADE_SECONDS = 0.15;

  /** If less than this is outside the edits, all of it tells the level. */
  private static final double ENOUGH = 0.1;

  private static final int KEPT = 6;

  private record Key(long from, long to, boolean matched) {}

  private final ReviewSide side;
  private final Decimator lowPass;
  private final Recent<Key, Clip> recent = new Recent<>(KEPT);

  public Clips(ReviewSide side) {
    this.side = side;
    this.lowPass = ClipSound.decimator(side.format().sampleRateHz());
  }

  /**
   * The sounds of a place.
   *
   * @param from first frame
   * @param to end
   * @param matched true to bring before and after to one level, false for one gain
   * @throws IllegalArgumentException if the place is none of this side, or too long
   */
  public Clip clip(long from, long to, boolean matched) throws IOException {
    if (from < 0 || to <= from || to > side.frames()) {
      throw new IllegalArgumentException("from frame " + from + " to " + to + " is no place");
    }
    if (to - from > side.format().frames(LONGEST_SECONDS)) {
      throw new IllegalArgumentException(
          "a sound of more than " + Math.round(LONGEST_SECONDS) + " s is not made; look closer");
    }
    return recent.get(new Key(from, to, matched), this::make);
  }

  private Clip make(Key key) throws IOException {
    long frames = key.to - key.from;
    double[][][] sound =
        side.with(
            sides ->
                new double[][][] {
                  ClipSound.read(sides.before(), key.from, frames, lowPass),
                  ClipSound.read(sides.after(), key.from, frames, lowPass)
                });
    double[][] before = sound[0];
    double[][] after = sound[1];
    double[][] removed = difference(before, after);
    boolean[] outside = outside(key.from, before[0].length);
    double beforeDb = level(before, outside);
    double afterDb = level(after, outside);
    double differenceDb = beforeDb - afterDb;
    boolean matched =
        key.matched
            && Double.isFinite(differenceDb)
            && StrictMath.abs(differenceDb) <= MOST_MATCHED_DB;
    double matchDb = matched ? differenceDb : 0;
    double gainDb = Double.isFinite(beforeDb) ? Math.min(MOST_GAIN_DB, LEVEL_DB - beforeDb) : 0;
    gainDb = Math.min(gainDb, headroom(before, CEILING_DB));
    gainDb = Math.min(gainDb, headroom(after, CEILING_DB) - matchDb);
    double removedDb = Math.min(gainDb, headroom(removed, REMOVED_CEILING_DB));
    int rate = side.format().sampleRateHz() / lowPass.factor();
    return new Clip(
        rate,
        gainDb,
        matched,
        matched ? matchDb : differenceDb,
        removedDb,
        WaveSound.bytes(before, gainDb, FADE_SECONDS, rate, 1),
        WaveSound.bytes(after, gainDb + matchDb, FADE_SECONDS, rate, 2),
        WaveSound.bytes(removed, removedDb, REMOVED_FADE_SECONDS, rate, 3));
  }

  private static double[][] difference(double[][] a, double[][] b) {
    double[][] difference = new double[a.length][a[0].length];
    for (int c = 0; c < a.length; c++) {
      for (int i = 0; i < a[c].length; i++) {
        difference[c][i] = a[c][i] - b[c][i];
      }
    }
    return difference;
  }

  /** True for the samples of a clip that no edit of any channel touches. */
  private boolean[] outside(long from, int count) {
    int factor = lowPass.factor();
    boolean[] outside = new boolean[count];
    Arrays.fill(outside, true);
    long end = from + (long) count * factor;
    EditTable edits = side.edits();
    for (int i = edits.firstReaching(from); i < edits.size() && edits.start(i) < end; i++) {
      // the low-pass carries an edit a little further
      long first = (edits.start(i) - lowPass.reach() - from) / factor;
      long last = (edits.end(i) + lowPass.reach() - from) / factor;
      for (int k = (int) Math.max(0, first); k <= Math.min(count - 1, last); k++) {
        outside[k] = false;
      }
    }
    int left = 0;
    for (boolean one : outside) {
      left += one ? 1 : 0;
    }
    if (left < ENOUGH * count) {
      Arrays.fill(outside, true);
    }
    return outside;
  }

  /** Root mean square over all channels, dBFS; minus infinity for silence. */
  private static double level(double[][] sound, boolean[] where) {
    double sum = 0;
    long count = 0;
    for (double[] channel : sound) {
      for (int i = 0; i < channel.length; i++) {
        if (where[i]) {
          sum += channel[i] * channel[i];
          count++;
        }
      }
    }
    return Decibels.ofPower(sum / count);
  }

  /** Gain that brings the peak to a ceiling; infinite for silence. */
  private static double headroom(double[][] sound, double ceilingDb) {
    double peak = 0;
    for (double[] channel : sound) {
      for (double x : channel) {
        peak = Math.max(peak, Math.abs(x));
      }
    }
    return ceilingDb - Decibels.ofAmplitude(peak);
  }
}
