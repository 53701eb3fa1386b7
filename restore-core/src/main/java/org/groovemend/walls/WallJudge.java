package org.groovemend.walls;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Says what the walls hold.
 *
 * <p>The vertical part of a mono groove is noise and does not swell with the music; that of a
 * stereo groove does. So the louder half of the seconds is looked at, and from their vertical part
 * what the quietest tenth has is taken off. The limits are our own and have no source.
 */
final class WallJudge {
  /** Vertical part re lateral, dB: up to here one signal, from there on two. */
  static final double MONO_DB = -18;

  static final double STEREO_DB = -12;

  /** The same for the vertical part that is the lateral one turned: sound in a room. */
  static final double MONO_TURNED_DB = -34;

  static final double STEREO_TURNED_DB = -22;

  /** A wall this far below the other is dead. */
  private static final double DEAD_DB = 40;

  /** A wall that shares this little with the other and lies this far below holds noise only. */
  private static final double UNRELATED = 0.3;

  private static final double WEAK_DB = 15;
  private static final double QUIETEST = 0.1;
  private static final double EXTREME = 0.02;
  private static final double AUDIBLE = 1e-4;
  private static final double LEAST_TOLD_DB = -90;

  /** Octaves of the verdict: 250 Hz to 4 kHz; of rumble: up to 88 Hz. */
  private static final int MIDDLE = 3;

  private static final int MIDDLE_END = 8;
  private static final int RUMBLE_END = 2;
  private static final double RUMBLE_TELLS = 0.3;

  /** Quiet seconds are without music if their power re the middle second is no more. */
  private static final double BARE = 0.01;

  private final WallSlots slots;
  private final WallPhase phase;
  private final OctaveBands octaves;
  private final DelayFinding delay;
  private final WallBalance balance;

  WallJudge(WallSlots slots, WallPhase phase, OctaveBands octaves, DelayFinding delay) {
    this.slots = slots;
    this.phase = phase;
    this.octaves = octaves;
    this.delay = delay;
    this.balance = new WallBalance(slots);
  }

  WallFinding judge() {
    double left = slots.all(0, slots.bands(), WallSlots.LEFT);
    double right = slots.all(0, slots.bands(), WallSlots.RIGHT);
    if (!(left > 0) && !(right > 0)) {
      return WallFinding.bare(Verdict.SILENT, "Neither wall sounds: the side is silent.");
    }
    double correlation = correlation(MIDDLE, MIDDLE_END);
    // unrelated walls tell nothing of each other, and a dead one has nothing to tell
    double apart = 10 * log10(Math.max(left, right) / Math.min(left, right));
    boolean dead = apart > DEAD_DB || (apart > WEAK_DB && !(Math.abs(correlation) > UNRELATED));
    double[] vertical = new double[slots.count()];
    double[] lateral = new double[slots.count()];
    for (int s = 0; s < vertical.length; s++) {
      for (int b = MIDDLE; b < Math.min(MIDDLE_END, slots.bands()); b++) {
        vertical[s] += part(s, b, -1);
        lateral[s] += part(s, b, 1);
      }
    }
    double turnedDb = turnedDb();
    double limit = quantile(lateral, 0.5);
    double floor = quantile(vertical, QUIETEST);
    double loudVertical = 0;
    double loudLateral = 0;
    int loud = 0;
    int mono = 0;
    int stereo = 0;
    double[] louder = new double[slots.count()];
    for (int s = 0; s < vertical.length; s++) {
      if (lateral[s] >= limit && lateral[s] > 0) {
        double db = 10 * log10(Math.max(vertical[s] - floor, 0) / lateral[s]);
        louder[loud++] = db;
        mono += db <= (MONO_DB + STEREO_DB) / 2 ? 1 : 0;
        stereo += db > (MONO_DB + STEREO_DB) / 2 ? 1 : 0;
        loudVertical += vertical[s];
        loudLateral += lateral[s];
      }
    }
    double verticalDb = loud == 0 ? Double.NaN : quantile(Arrays.copyOf(louder, loud), 0.5);
    Verdict verdict;
    double confidence;
    if (dead) {
      verdict = Verdict.ONE_WALL;
      confidence = 1;
    } else if (loud == 0 || Double.isNaN(verticalDb)) {
      verdict = Verdict.UNDECIDED;
      confidence = 1;
    } else if (verticalDb > STEREO_DB || turnedDb > STEREO_TURNED_DB) {
      verdict = Verdict.STEREO;
      confidence = verticalDb > STEREO_DB ? (double) stereo / loud : 1;
    } else if (verticalDb <= MONO_DB && turnedDb <= MONO_TURNED_DB) {
      verdict = delay.opposed() ? opposed() : Verdict.LATERAL;
      confidence = (double) mono / loud;
    } else {
      verdict = Verdict.UNDECIDED;
      confidence = (double) Math.max(mono, stereo) / loud;
    }
    double level = 10 * log10(right / left);
    return new WallFinding(
        verdict,
        confidence,
        reason(verdict, verticalDb, turnedDb, correlation, level),
        correlation,
        dead ? level : balance.all,
        dead ? Double.POSITIVE_INFINITY : balance.allDoubt,
        dead ? DelayFinding.none() : delay,
        dead ? Double.NaN : verticalDb,
        dead ? Double.NaN : turnedDb,
        verdict == Verdict.STEREO || verdict == Verdict.UNDECIDED ? extreme(1) : Double.NaN,
        verdict == Verdict.STEREO || verdict == Verdict.UNDECIDED ? extreme(-1) : Double.NaN,
        bands(limit, lateral));
  }

  /** Power of half the sum (sign 1) or half the difference (-1), walls balanced, no delay. */
  private double part(int s, int b, int sign) {
    double h = StrictMath.tanh(balance.applied[b] * StrictMath.log(10) / 40);
    double left = slots.at(s, b, WallSlots.LEFT) / ((1 - h) * (1 - h));
    double right = slots.at(s, b, WallSlots.RIGHT) / ((1 + h) * (1 + h));
    double both = slots.at(s, b, WallSlots.SHARED) / ((1 - h) * (1 + h));
    return Math.max(0, (left + right + 2 * sign * both) / 4);
  }

  /**
   * Vertical part that is the lateral one turned, dB re the lateral, in the octaves of the verdict.
   */
  private double turnedDb() {
    double[] ratio = new double[octaves.bins()];
    for (int k = 0; k < ratio.length; k++) {
      ratio[k] = StrictMath.pow(10, octaves.between(balance.applied, k) / 20);
    }
    int end = octaves.firstBin(Math.min(MIDDLE_END, octaves.count()));
    return 10 * log10(phase.turned(octaves.firstBin(MIDDLE), end, ratio));
  }

  /** Of the whole side, as wired. */
  private double correlation(int low, int high) {
    double left = slots.all(low, high, WallSlots.LEFT);
    double right = slots.all(low, high, WallSlots.RIGHT);
    double both = slots.all(low, high, WallSlots.SHARED) * (delay.opposed() ? -1 : 1);
    return left > 0 && right > 0 ? both / Math.sqrt(left * right) : Double.NaN;
  }

  /** Where music is of opposite sense, rumble, which is mostly vertical, tells how it is wired. */
  private Verdict opposed() {
    double rumble = rumble();
    if (rumble < -RUMBLE_TELLS) {
      return Verdict.VERTICAL;
    }
    return rumble > RUMBLE_TELLS ? Verdict.LATERAL_REVERSED : Verdict.OPPOSED;
  }

  /** Correlation below 88 Hz in the quietest seconds, as wired; 0 if they may hold music. */
  private double rumble() {
    double[] level = new double[slots.count()];
    for (int s = 0; s < level.length; s++) {
      level[s] =
          slots.at(s, MIDDLE, MIDDLE_END, WallSlots.LEFT)
              + slots.at(s, MIDDLE, MIDDLE_END, WallSlots.RIGHT);
    }
    double limit = quantile(level, QUIETEST);
    if (limit > BARE * quantile(level, 0.5)) {
      return 0;
    }
    double left = 0;
    double right = 0;
    double both = 0;
    for (int s = 0; s < level.length; s++) {
      if (level[s] <= limit) {
        left += slots.at(s, 0, RUMBLE_END, WallSlots.LEFT);
        right += slots.at(s, 0, RUMBLE_END, WallSlots.RIGHT);
        both += slots.at(s, 0, RUMBLE_END, WallSlots.SHARED);
      }
    }
    double wired = delay.opposed() ? -both : both;
    return left > 0 && right > 0 ? wired / Math.sqrt(left * right) : 0;
  }

  /** Right re left where left outweighs most (1), or the other way round. */
  private double extreme(int direction) {
    int low = MIDDLE;
    int high = Math.min(MIDDLE_END, slots.bands());
    double[] ratios = new double[slots.count() * Math.max(0, high - low)];
    int n = 0;
    for (int b = low; b < high; b++) {
      double most = 0;
      for (int s = 0; s < slots.count(); s++) {
        most = Math.max(most, slots.at(s, b, WallSlots.LEFT) + slots.at(s, b, WallSlots.RIGHT));
      }
      for (int s = 0; s < slots.count(); s++) {
        double left = slots.at(s, b, WallSlots.LEFT);
        double right = slots.at(s, b, WallSlots.RIGHT);
        if (left + right > AUDIBLE * most && left > 0 && right > 0) {
          ratios[n++] = direction * 10 * (StrictMath.log10(right) - StrictMath.log10(left));
        }
      }
    }
    return n == 0 ? Double.NaN : Math.min(0, quantile(Arrays.copyOf(ratios, n), EXTREME));
  }

  private List<WallBand> bands(double limit, double[] middle) {
    List<WallBand> bands = new ArrayList<>();
    for (int b = 0; b < slots.bands(); b++) {
      double vertical = 0;
      double lateral = 0;
      for (int s = 0; s < middle.length; s++) {
        if (middle[s] >= limit) {
          vertical += part(s, b, -1);
          lateral += part(s, b, 1);
        }
      }
      bands.add(
          new WallBand(
              OctaveBands.centreHertz(b),
              correlation(b, b + 1),
              balance.applied[b],
              balance.doubt[b],
              10 * log10(vertical / lateral)));
    }
    return bands;
  }

  private String reason(
      Verdict verdict, double verticalDb, double turnedDb, double correlation, double level) {
    String part = delay.opposed() ? "lateral" : "vertical";
    String other = delay.opposed() ? "vertical" : "lateral";
    String parts =
        String.format(
            Locale.ROOT,
            "What swells with the music in the %s part is %s re the %s part (mono up to %.0f, stereo above %.0f), what is the %s part"
                + " turned, as sound in a room is, %s (mono up to %.0f, stereo above %.0f); correlation of the walls %.3f.",
            part,
            db(verticalDb),
            other,
            MONO_DB,
            STEREO_DB,
            other,
            db(turnedDb),
            MONO_TURNED_DB,
            STEREO_TURNED_DB,
            correlation);
    return switch (verdict) {
      case LATERAL -> "One lateral signal on both walls. " + parts;
      case LATERAL_REVERSED ->
          "One signal of opposite sense on the walls, and bass noise without music of equal sense: rumble is mostly vertical,"
              + " so a lead of the pickup is reversed and the groove is lateral. "
              + parts;
      case VERTICAL ->
          "One signal of opposite sense on the walls, as bass noise without music is too: rumble is mostly vertical, so the"
              + " groove is vertical. "
              + parts;
      case OPPOSED ->
          "One signal of opposite sense on the walls: the groove is vertical, or a lead of the pickup is reversed; the bass noise"
              + " does not tell which. "
              + parts;
      case STEREO -> "Two signals. " + parts;
      case UNDECIDED ->
          Double.isNaN(verticalDb)
              ? "The side has too little sound to compare its walls."
              : "Mono or stereo is not certain. " + parts;
      case ONE_WALL ->
          String.format(
              Locale.ROOT,
              "Only the %s wall sounds: the other lies %s below it and shares nothing with it.",
              level < 0 ? "left" : "right",
              Double.isInfinite(level)
                  ? "infinitely far"
                  : String.format(Locale.ROOT, "%.1f dB", Math.abs(level)));
      case SILENT, ONE_CHANNEL -> throw new IllegalStateException(verdict.key());
    };
  }

  private static String db(double value) {
    return value < LEAST_TOLD_DB
        ? String.format(Locale.ROOT, "below %.0f dB", LEAST_TOLD_DB)
        : String.format(Locale.ROOT, "%.1f dB", value);
  }

  private static double quantile(double[] values, double share) {
    if (values.length == 0) {
      return Double.NaN;
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[(int) Math.min(sorted.length - 1, share * sorted.length)];
  }

  private static double log10(double x) {
    return StrictMath.log10(x);
  }
}
