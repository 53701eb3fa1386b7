package org.groovemend.job.restore;

import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.click.CaptureAnalyser;
import org.groovemend.click.CaptureFinding;
import org.groovemend.click.ClickAnalyser;
import org.groovemend.click.ClickCalibration;
import org.groovemend.click.ClickStage;
import org.groovemend.click.CrackleStage;
import org.groovemend.hum.HumAnalyser;
import org.groovemend.hum.HumFinding;
import org.groovemend.hum.HumStage;
import org.groovemend.job.side.WatchedRanges;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveStage;
import org.groovemend.rumble.RumbleAnalyser;
import org.groovemend.rumble.RumbleFinding;
import org.groovemend.rumble.RumbleStage;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Stage;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageNotPossibleException;
import org.groovemend.surfacenoise.NoiseStage;
import org.groovemend.surfacenoise.SideNoise;
import org.groovemend.thump.ThumpStage;
import org.groovemend.walls.MonoStage;
import org.groovemend.walls.WallAnalyser;
import org.groovemend.walls.WallFinding;

/**
 * What will be done to a side, from what its analysers found: each looks at the side as the stages
 * before it leave it.
 *
 * @param chain the stages
 * @param captured how the transfer was made, as stated or as its clicks tell
 * @param capture what the clicks tell about that, or null if it was stated or no click is sought
 * @param clicks what the click analyser found, or null
 * @param crackle what was found for the crackle pass, or null
 * @param hum what hum was found, or null if it was not looked for
 * @param rumble what lies low, or null if it was not looked for
 * @param curve applies or undoes a playback curve, or null
 * @param walls how the groove walls agree, or null if that was not measured
 * @param noisePlan where the noise is taken from; without noise if the stage does not work
 * @param skipped stages that were asked for but cannot be applied, and why, one sentence each
 * @param doubts about what will be done, one sentence each
 */
public record Plan(
    SideChain chain,
    CaptureCurve captured,
    CaptureFinding capture,
    ClickCalibration clicks,
    ClickCalibration crackle,
    HumFinding hum,
    RumbleFinding rumble,
    CurveStage curve,
    WallFinding walls,
    NoisePlan noisePlan,
    Map<StageId, String> skipped,
    List<String> doubts) {

  /** Name of that finding in the ledger; the stage's own is that of its weights. */
  static final String WALLS = "walls";

  private static final double MUCH_MORE = 2;

  /**
   * Looks and decides.
   *
   * @param other bare groove of another side to take for the noise, or null for this side's own
   */
  public static Plan make(
      WordSource side,
      Treatment treatment,
      LeadInFinding leadIn,
      OtherGroove other,
      Crew crew,
      Progress progress)
      throws IOException {
    List<Stage> stages = new ArrayList<>();
    Map<StageId, String> skipped = new EnumMap<>(StageId.class);
    List<String> doubts = new ArrayList<>();
    ClickCalibration clicks = null;
    ClickCalibration crackle = null;
    HumFinding hum = null;
    RumbleFinding rumble = null;
    WallFinding walls = null;
    NoisePlan noise = NoisePlan.NONE;
    progress.at("analysing", 0, 2);
    CaptureFinding capture = null;
    CaptureCurve stated = treatment.capturedThrough();
    if (!stated.isKnown() && seeksClicks(treatment)) {
      capture = CaptureAnalyser.analyse(watched(side, stages, progress, 0), treatment.clicks());
      doubts.add(capture.inWords());
    }
    CaptureCurve captured = capture == null ? stated : capture.curve();
    CurvePlan.requireRealisable(captured, side.format());
    if (treatment.has(StageId.CLICKS) && !treatment.clicks().isNeutral()) {
      clicks =
          ClickAnalyser.analyse(
              watched(side, stages, progress, 0), treatment.clicks(), captured, crew);
      stages.add(new ClickStage(treatment.clicks(), clicks, captured));
      if (clicks.recall() != null && clicks.recall().blind()) {
        doubts.add(ClickRecallPage.blind(clicks.recall()));
      }
      double asked = treatment.clicks().expectedFalseAlarmsPerMinute();
      if (clicks.expectedFalseAlarmsPerMinute() > MUCH_MORE * asked) {
        doubts.add(
            String.format(
                Locale.ROOT,
                "About %.0f false repairs a minute are to be expected, not the %s asked for: on this side sound and clicks"
                    + " are hard to tell apart. Listen to the edits, or lower expectedFalseAlarmsPerMinute.",
                clicks.expectedFalseAlarmsPerMinute(),
                asked));
      }
    }
    if (treatment.has(StageId.CRACKLE) && !treatment.crackle().isNeutral()) {
      crackle =
          CrackleStage.analyse(
              watched(side, stages, progress, 0), treatment.crackle(), captured, crew);
      stages.add(new CrackleStage(treatment.crackle(), crackle, captured));
    }
    if (treatment.has(StageId.THUMPS) && !treatment.thumps().isNeutral()) {
      stages.add(new ThumpStage(treatment.thumps()));
    }
    if (treatment.has(StageId.HUM) && !treatment.hum().isNeutral()) {
      // of the side as captured: repairs leave hum as it is, and to read through them is to do them
      // twice
      HumStage stage = HumAnalyser.analyse(watched(side, List.of(), progress, 0), treatment.hum());
      hum = stage.finding();
      stages.add(stage);
    }
    if (treatment.has(StageId.RUMBLE) && !treatment.rumble().isNeutral()) {
      // of the side as captured, for the same reason
      RumbleStage stage =
          RumbleAnalyser.analyse(
              watched(side, List.of(), progress, 0),
              treatment.rumble(),
              leadIn.startFrame(),
              leadIn.endFrame());
      rumble = stage.finding();
      if (!rumble.taken()) {
        doubts.add("The rumble stage changed nothing. " + rumble.reason());
      }
      stages.add(stage);
    }
    CurveStage curve = null;
    if (treatment.has(StageId.CURVE)) {
      CurvePlan.requireRealisable(treatment.curve(), side.format());
      curve = new CurveStage(treatment.curve());
      stages.add(curve);
      doubts.addAll(CurvePlan.doubts(treatment, captured));
    }
    if (treatment.has(StageId.MONO)) {
      // of the side as captured, for the same reason; the weights are found where they are used
      walls = WallAnalyser.analyse(watched(side, List.of(), progress, 0));
      try {
        if (!treatment.mono().isNeutral()) {
          stages.add(MonoStage.of(treatment.mono(), walls));
        }
      } catch (StageNotPossibleException e) {
        skipped.put(StageId.MONO, sentence(e.getMessage()));
      }
    }
    progress.at("analysing", 1, 2);
    if (treatment.has(StageId.NOISE) && treatment.noise().reductionDb() > 0) {
      noise =
          NoisePlan.make(
              watched(side, stages, progress, 1),
              watched(side, List.of(), progress, 1),
              leadIn,
              other,
              treatment.noise());
      if (noise.noise() != null) {
        stages.add(new NoiseStage(treatment.noise(), noise.noise()));
        if (noise.doubt() != null) {
          doubts.add(noise.doubt());
        }
      } else {
        skipped.put(StageId.NOISE, noise.doubt());
      }
    }
    progress.at("analysing", 2, 2);
    return new Plan(
        new SideChain(stages),
        captured,
        capture,
        clicks,
        crackle,
        hum,
        rumble,
        curve,
        walls,
        noise,
        skipped,
        List.copyOf(doubts));
  }

  /** Noise along the side, or null if that stage does not work. */
  SideNoise noise() {
    return noisePlan.noise();
  }

  private static String sentence(String reason) {
    return reason.substring(0, 1).toUpperCase(Locale.ROOT)
        + reason.substring(1)
        + (reason.endsWith(".") ? "" : ".");
  }

  private static boolean seeksClicks(Treatment treatment) {
    return (treatment.has(StageId.CLICKS) && !treatment.clicks().isNeutral())
        || (treatment.has(StageId.CRACKLE) && !treatment.crackle().isNeutral());
  }

  /** The transfer to compare with: through the same curve, so that only the rest is compared. */
  public RangeReader transferToCompare(WordSource side) {
    return new SideChain(curve == null ? List.of() : List.of(curve)).reader(side);
  }

  /** Whether a stage repairs single places. */
  boolean repairs() {
    return chain.stages().stream().anyMatch(RepairStage.class::isInstance);
  }

  /** What a person should know of this plan, one sentence each. */
  List<String> remarks() {
    List<String> remarks = new ArrayList<>(doubts);
    remarks.addAll(skipped.values());
    return remarks;
  }

  private static RangeReader watched(
      WordSource side, List<Stage> before, Progress progress, int done) {
    return new WatchedRanges(new SideChain(before).reader(side), progress, "analysing", done, 2);
  }

  /** What goes into the ledger, by name. */
  public Map<String, Object> findings(int sampleRateHz) {
    Map<String, Object> findings = new LinkedHashMap<>();
    if (capture != null) {
      findings.put("capture", capture);
    }
    if (clicks != null) {
      findings.put(StageId.CLICKS.key(), clicks);
    }
    if (crackle != null) {
      findings.put(StageId.CRACKLE.key(), crackle);
    }
    if (hum != null) {
      findings.put(StageId.HUM.key(), hum);
    }
    if (rumble != null) {
      findings.put(StageId.RUMBLE.key(), rumble);
    }
    if (curve != null) {
      findings.put(StageId.CURVE.key(), CurvePlan.finding(curve.parameters(), sampleRateHz));
    }
    if (walls != null) {
      findings.put(WALLS, walls);
    }
    if (noise() != null) {
      findings.put(StageId.NOISE.key(), noisePlan.finding());
    }
    return findings;
  }
}
