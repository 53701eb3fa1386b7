package org.groovemend.listening;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import org.groovemend.measure.Decibels;
import org.groovemend.measure.LevelTrack;

/**
 * Picks passages from the levels of the clean copy, 100 ms by 100 ms.
 *
 * <p>Music is what lies between lead-in and run-out; where no bare groove is known, the whole side.
 * A quiet passage counts as music if half of it stands 6 dB over the bare groove; without a known
 * groove it may be groove, and the reason says so. A fade falls by at least 6 dB, along a straight
 * line in decibels that explains 90 % of the variance of the level over a second. These limits are
 * the project's own; no published source.
 */
public final class PassageFinder {

  /** Length of every passage but the end, in seconds; of a short side it is a quarter. */
  static final double CLIP_SECONDS = 7;

  private static final double SHORTEST_SECONDS = 3;

  /** Length of the end, in seconds. */
  static final double END_SECONDS = 20;

  private static final double OVER_GROOVE = 4;
  private static final double MUSIC_SHARE = 0.5;
  private static final double FADE_DB = 6;
  private static final double FADE_STEADINESS = 0.9;
  private static final double SMOOTHING_SECONDS = 1;
  private static final double LEAST_POWER = 1e-15;

  private final LevelTrack levels;
  private final int[] repairs;
  private final int sampleRateHz;
  private final Span music;
  private final int from;
  private final int to;
  private final int length;
  private final int fadeLength;

  /**
   * Where the music lies.
   *
   * @param startFrame first frame behind the lead-in, 0 if none is known
   * @param endFrame first frame of the run-out, the length of the side if none is known
   * @param groove mean square of the bare groove in the clean copy as {@link LevelTrack} measures
   *     it, NaN if not known
   */
  public record Span(long startFrame, long endFrame, double groove) {}

  private PassageFinder(LevelTrack levels, int[] repairs, int sampleRateHz, Span music) {
    this.levels = levels;
    this.repairs = repairs;
    this.sampleRateHz = sampleRateHz;
    this.music = music;
    from = (int) Math.min(levels.slots(), ceilSlot(music.startFrame()));
    to =
        Math.max(
            from,
            music.endFrame() == levels.frames() ? levels.slots() : levels.slotOf(music.endFrame()));
    int most = Math.min(to - from, slots(CLIP_SECONDS));
    fadeLength = most < slots(CLIP_SECONDS) ? 0 : most;
    length = Math.max(Math.min(most, slots(SHORTEST_SECONDS)), Math.min(most, (to - from) / 4));
  }

  /**
   * Finds them.
   *
   * @param levels of the whole clean copy
   * @param repairs repaired places that begin in each slot
   * @return at most one of each kind, in the order of the kinds; empty for digital silence
   */
  public static List<Passage> find(LevelTrack levels, int[] repairs, int sampleRateHz, Span music) {
    return new PassageFinder(levels, repairs, sampleRateHz, music).find();
  }

  private List<Passage> find() {
    List<Passage> found = new ArrayList<>();
    if (length == 0 || allSilent()) {
      return found;
    }
    add(found, Passage.Kind.QUIETEST, best(length, this::quietness), length, this::quiet);
    add(found, Passage.Kind.LOUDEST, best(length, this::loudness), length, this::level);
    add(found, Passage.Kind.FADE, best(fadeLength, this::steadyFall), fadeLength, this::fade);
    add(found, Passage.Kind.MOST_REPAIRS, best(length, this::repaired), length, this::repairs);
    long start =
        Math.max(music.startFrame(), music.endFrame() - Math.round(END_SECONDS * sampleRateHz));
    found.add(
        new Passage(
            Passage.Kind.END,
            start,
            music.endFrame(),
            music.endFrame() < levels.frames()
                ? "The last seconds before the run-out groove."
                : "The last seconds of the side; no run-out groove was found behind them."));
    return found;
  }

  private interface Reason {
    String of(int slot);
  }

  private void add(List<Passage> found, Passage.Kind kind, int slot, int slots, Reason reason) {
    if (slot >= 0) {
      found.add(
          new Passage(
              kind,
              Math.max(music.startFrame(), levels.start(slot)),
              Math.min(music.endFrame(), levels.end(slot + slots - 1)),
              reason.of(slot)));
    }
  }

  /** First slot of the window with the highest merit, the first of equals; -1 if all are NaN. */
  private int best(int slots, IntToDoubleFunction merit) {
    int best = -1;
    double most = Double.NEGATIVE_INFINITY;
    for (int at = from; slots > 0 && at + slots <= to; at++) {
      double m = merit.applyAsDouble(at);
      if (m > most) {
        most = m;
        best = at;
      }
    }
    return best;
  }

  private double quietness(int at) {
    int sounding = 0;
    for (int i = at; i < at + length; i++) {
      if (levels.silent(i)) {
        return Double.NaN;
      }
      boolean over =
          Double.isNaN(music.groove()) || levels.meanSquare(i) >= OVER_GROOVE * music.groove();
      sounding += over ? 1 : 0;
    }
    return sounding >= MUSIC_SHARE * length ? -levels.meanSquare(at, at + length) : Double.NaN;
  }

  private double loudness(int at) {
    return levels.meanSquare(at, at + length);
  }

  private double repaired(int at) {
    long count = repairsAt(at);
    return count == 0 ? Double.NaN : count;
  }

  private long repairsAt(int at) {
    long count = 0;
    for (int i = at; i < at + length; i++) {
      count += repairs[i];
    }
    return count;
  }

  /** Fall in dB over the window if it is large and steady enough, else NaN. */
  private double steadyFall(int at) {
    int smooth = Math.max(1, slots(SMOOTHING_SECONDS));
    int points = fadeLength - smooth + 1;
    double sumY = 0;
    double sumYy = 0;
    double sumXy = 0;
    double sumXx = 0;
    for (int i = 0; i < points; i++) {
      if (levels.silent(at + i) || levels.silent(at + i + smooth - 1)) {
        return Double.NaN;
      }
      double y =
          Decibels.ofPower(Math.max(LEAST_POWER, levels.meanSquare(at + i, at + i + smooth)));
      double x = i - (points - 1) / 2.0;
      sumY += y;
      sumYy += y * y;
      sumXy += x * y;
      sumXx += x * x;
    }
    double variance = sumYy - sumY * sumY / points;
    double slope = sumXy / sumXx;
    double fall = -slope * fadeLength;
    boolean steady = slope * sumXy >= FADE_STEADINESS * variance;
    return fall >= FADE_DB && steady ? fall : Double.NaN;
  }

  private String quiet(int at) {
    String level = level(at);
    return Double.isNaN(music.groove())
        ? level + " It may be bare groove: none was found to tell it from music."
        : level;
  }

  private String level(int at) {
    return String.format(
        Locale.ROOT,
        "%.1f dBFS RMS above 100 Hz in the clean copy.",
        Decibels.ofPower(levels.meanSquare(at, at + length)));
  }

  private String fade(int at) {
    return String.format(Locale.ROOT, "The level falls by about %.0f dB.", steadyFall(at));
  }

  private String repairs(int at) {
    long count = repairsAt(at);
    return count + (count == 1 ? " place was repaired here." : " places were repaired here.");
  }

  private boolean allSilent() {
    for (int i = from; i < to; i++) {
      if (!levels.silent(i)) {
        return false;
      }
    }
    return true;
  }

  private long ceilSlot(long frame) {
    return (frame + levels.slotFrames() - 1) / levels.slotFrames();
  }

  private int slots(double seconds) {
    return Math.max(1, (int) Math.round(seconds * sampleRateHz / levels.slotFrames()));
  }
}
