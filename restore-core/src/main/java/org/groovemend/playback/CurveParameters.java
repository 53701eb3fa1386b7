package org.groovemend.playback;

import org.groovemend.cartridge.ChosenLoading;
import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of the curve stage.
 *
 * @param apply as {@link ChosenCurve} reads it
 * @param undo the same
 * @param discRpm 10 to 120, or 0
 * @param captureRpm 10 to 120, or 0
 * @param runsAt speed of the file
 * @param loading as {@link ChosenLoading} reads it
 * @param loadingMostDb above 0 to 20
 * @param gainDb -60 to 20
 * @param reason one line
 */
public record CurveParameters(
    @Setting(
            why =
                "The playback curve to apply: a name that 'groovemend curve' lists, TURNOVER/ROLLOFF[/SHELF] in hertz, dB at 10 kHz"
                    + " and hertz, or us:SHELF,TURNOVER,TREBLE; flat applies none. No curve is ever applied unasked: which one is"
                    + " right is a judgement")
        String apply,
    @Setting(
            why =
                "The curve that the transfer was made through and that is taken back first, said in the same way; flat for none")
        String undo,
    @Setting(
            why =
                "Speed the disc was made for, if it was played at another while it was captured; 0 if the two are the same",
            unit = "turns a minute",
            min = 0,
            max = 120)
        double discRpm,
    @Setting(
            why = "Speed at which it was played; 0 if that is its own",
            unit = "turns a minute",
            min = 0,
            max = 120)
        double captureRpm,
    @Setting(
            why =
                "Which speed the file runs at: capture (nothing was resampled: the constants of the curve to apply are longer by disc"
                    + " over capture speed) or disc (the speed was set right already: those of the curve to undo are shorter)")
        RunsAt runsAt,
    @Setting(
            why =
                "Loading of the pick-up to correct, MH/OHM:OHM/PF:OHM/PF: coil in millihenry and ohm, load it was captured into in ohm"
                    + " and picofarad (cable and input), load it should have had, such as 500/800:47000/250:47000/150, or flat in place"
                    + " of the last; none leaves it. The electrical half only, see 'groovemend loading'")
        String loading,
    @Setting(
            why =
                "Most gain that this correction may take anywhere below half the sampling rate; if it needs more it is refused, since"
                    + " it would lift noise more than music",
            unit = "dB re 1 kHz",
            min = 0.1,
            max = 20)
        double loadingMostDb,
    @Setting(
            why =
                "Gain of the stage. A curve lifts the bass: what would exceed full scale is refused, and the sentence says how much"
                    + " gain it needs. One gain for all sides of a set keeps their levels",
            unit = "dB",
            min = -60,
            max = 20)
        double gainDb,
    @Setting(why = "Why this curve: who chose it, by what evidence; goes into the ledger")
        String reason)
    implements StageParameters {

  /** What speed a file runs at. */
  public enum RunsAt {
    /** As it was captured. */
    CAPTURE,
    /** As the disc was meant. */
    DISC
  }

  private static final double MOST_RATIO = 4;
  private static final double AUDIBLE_HERTZ = 20_000;
  private static final double USUAL_MOST_DB = 6;
  private static final int LONGEST_REASON = 1000;

  public CurveParameters {
    requireCurve("apply", apply);
    requireCurve("undo", undo);
    for (double rpm : new double[] {discRpm, captureRpm}) {
      if (rpm != 0) {
        StageParameters.requireWithin("rpm", rpm, 10, 120);
      }
    }
    if ((discRpm == 0) != (captureRpm == 0)) {
      throw new IllegalArgumentException(
          "discRpm " + discRpm + " and captureRpm " + captureRpm + " must be stated together");
    }
    if (discRpm > MOST_RATIO * captureRpm || captureRpm > MOST_RATIO * discRpm) {
      throw new IllegalArgumentException(
          "speeds of " + discRpm + " and " + captureRpm + " are more than four times apart");
    }
    StageParameters.requireWithin("gainDb", gainDb, -60, 20);
    StageParameters.requireWithin("loadingMostDb", loadingMostDb, 0.1, 20);
    ChosenLoading loaded = ChosenLoading.of(loading);
    if (!loaded.isNone()) {
      loaded.correction(loadingMostDb, AUDIBLE_HERTZ);
    }
    if (reason.length() > LONGEST_REASON || reason.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException("reason is not one line of at most 1000 characters");
    }
  }

  private static void requireCurve(String name, String text) {
    if (text == null) {
      throw new IllegalArgumentException(name + " names no curve");
    }
    ChosenCurve.of(text);
  }

  /** Nothing is applied unless a curve is named. */
  public static CurveParameters defaults() {
    return new CurveParameters(
        ChosenCurve.FLAT,
        ChosenCurve.FLAT,
        0,
        0,
        RunsAt.CAPTURE,
        ChosenLoading.NONE,
        USUAL_MOST_DB,
        0,
        "");
  }

  public ChosenCurve applied() {
    return ChosenCurve.of(apply);
  }

  public ChosenCurve undone() {
    return ChosenCurve.of(undo);
  }

  /** Speed of the disc over that of the capture. */
  public double speedRatio() {
    return discRpm == 0 ? 1 : discRpm / captureRpm;
  }

  /** By what the constants of the applied curve are longer in the time of the file. */
  public double applyFactor() {
    return runsAt == RunsAt.CAPTURE ? speedRatio() : 1;
  }

  /** The same for the undone curve, which worked on what was played. */
  public double undoFactor() {
    return runsAt == RunsAt.DISC ? 1 / speedRatio() : 1;
  }

  public ChosenLoading loaded() {
    return ChosenLoading.of(loading);
  }

  /** True if neither a curve nor a loading nor a gain is asked for. */
  public boolean isNeutral() {
    return loaded().isNone()
        && applied().curve().isFlat()
        && undone().curve().isFlat()
        && gainDb == 0;
  }

  public CurveParameters withApply(String curve) {
    return new CurveParameters(
        curve, undo, discRpm, captureRpm, runsAt, loading, loadingMostDb, gainDb, reason);
  }

  public CurveParameters withUndo(String curve) {
    return new CurveParameters(
        apply, curve, discRpm, captureRpm, runsAt, loading, loadingMostDb, gainDb, reason);
  }

  public CurveParameters withSpeeds(double disc, double capture) {
    return new CurveParameters(
        apply, undo, disc, capture, runsAt, loading, loadingMostDb, gainDb, reason);
  }

  public CurveParameters withGainDb(double db) {
    return new CurveParameters(
        apply, undo, discRpm, captureRpm, runsAt, loading, loadingMostDb, db, reason);
  }

  public CurveParameters withLoading(String coilAndLoads) {
    return new CurveParameters(
        apply, undo, discRpm, captureRpm, runsAt, coilAndLoads, loadingMostDb, gainDb, reason);
  }

  public CurveParameters withLoadingMostDb(double db) {
    return new CurveParameters(
        apply, undo, discRpm, captureRpm, runsAt, loading, db, gainDb, reason);
  }

  public CurveParameters withReason(String why) {
    return new CurveParameters(
        apply, undo, discRpm, captureRpm, runsAt, loading, loadingMostDb, gainDb, why);
  }

  @Override
  public StageId stage() {
    return StageId.CURVE;
  }

  @Override
  public int version() {
    return 2;
  }
}
