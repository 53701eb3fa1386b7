package org.groovemend.speed;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.hum.HumAnalyser;
import org.groovemend.hum.HumFinding;
import org.groovemend.hum.HumParameters;
import org.groovemend.stage.RangeReader;

/**
 * Hears what tells the right speed of a side. Reads it once, and some eight times more if hum is
 * asked; keeps some 10 kB for each second of dense music.
 */
public final class SpeedAnalyser {

  /** Tolerance of a recorded disc, as a share: IEC 60098, clause 5.6; older discs have none. */
  private static final double CUT = 0.005;

  /** Scratches drift: what a speed from them is good for (room rotation). */
  private static final double SCRATCHES = 0.003;

  /** How far mains may be off, Hz; from memory. */
  private static final double GRID_HZ = 0.2;

  private final SpeedQuestion question;
  private final List<SpeedEvidence> evidence = new ArrayList<>();
  private final List<String> doubts = new ArrayList<>();

  private SpeedAnalyser(SpeedQuestion question) {
    this.question = question;
  }

  /** Listens and weighs. */
  public static SpeedFinding analyse(RangeReader side, SpeedQuestion question) throws IOException {
    return new SpeedAnalyser(question).run(side);
  }

  private SpeedFinding run(RangeReader side) throws IOException {
    double seconds = side.format().seconds(side.frames());
    PartialTracks tracks = PitchAnalyser.tracks(side);
    WowFinding wow = WowEstimator.estimate(tracks, seconds, question.playedRpm(), question.radii());
    turntable(wow);
    HumFinding hum = null;
    if (question.hum() != HumSource.UNKNOWN) {
      hum = HumAnalyser.analyse(side, HumParameters.defaults()).finding();
      hum(hum);
    }
    TuningFinding tuning = TuningEstimator.estimate(tracks, seconds, question.a4Hz());
    tuning(tuning);
    return new SpeedFinding(tuning, wow, hum, SpeedEstimate.of(evidence, doubts));
  }

  /** Speed of the turntable by the surest of what tells it. */
  private void turntable(WowFinding wow) {
    double rpm = question.playedRpm();
    double half = 0;
    String by = "as stated";
    if (question.rotation() != null && question.rotation().found()) {
      double told = question.rotation().rpm();
      if (Math.abs(told / rpm - 1) > 2 * SCRATCHES) {
        doubts.add(
            String.format(
                Locale.ROOT,
                "the repairs recur at %.2f rpm, not at the %.2f that are stated",
                told,
                rpm));
      }
      rpm = told;
      half = SCRATCHES;
      by = "by the repairs that recur";
    }
    if (wow.found()) {
      double told = 60 / wow.wow().turnSeconds();
      if (Math.abs(told / rpm - 1) > 2 * half + 0.01) {
        doubts.add(
            String.format(
                Locale.ROOT,
                "the pitch sways at %.2f rpm, but the turntable did %.2f %s",
                told,
                rpm,
                by));
      }
      rpm = told;
      half = wow.turnSecondsHalf() / wow.wow().turnSeconds();
      by = "by the wow";
    }
    if (Double.isNaN(rpm) || Double.isNaN(question.meantRpm())) {
      return;
    }
    evidence.add(
        new SpeedEvidence(
            SpeedEvidence.Kind.TURNTABLE,
            question.meantRpm() / rpm,
            Math.sqrt(half * half + CUT * CUT),
            String.format(
                Locale.ROOT,
                "played at %.4f rpm %s, made for %.4f; assumed: cut within 0.5 %% of that (IEC 60098; older discs may be further off)",
                rpm,
                by,
                question.meantRpm())));
  }

  private void hum(HumFinding hum) {
    if (question.hum() == HumSource.REPLAY || !hum.found()) {
      return;
    }
    HumFinding.Family most = hum.families().get(0);
    for (HumFinding.Family family : hum.families()) {
      most = family.lines().size() > most.lines().size() ? family : most;
    }
    if (hum.families().size() > 1) {
      doubts.add(
          "there is hum near 50 and near 60 Hz; that of more lines was taken for the disc's");
    }
    double grid = GRID_HZ / most.mainsHertz();
    evidence.add(
        new SpeedEvidence(
            SpeedEvidence.Kind.HUM,
            most.mainsHertz() / most.meanHertz(),
            grid,
            String.format(
                Locale.ROOT,
                "hum at %.3f Hz; assumed: recorded with the music, from mains of %.0f Hz within %.1f Hz",
                most.meanHertz(),
                most.mainsHertz(),
                GRID_HZ)));
  }

  private void tuning(TuningFinding tuning) {
    if (!tuning.found()) {
      return;
    }
    SpeedEvidence others = SpeedEstimate.of(evidence, List.of()).together();
    double factor = tuning.factor();
    double semitones = 0;
    if (others != null) {
      semitones =
          StrictMath.rint(12 * StrictMath.log(others.factor() / factor) / StrictMath.log(2));
      factor *= StrictMath.pow(2, semitones / 12);
    }
    if (others == null || others.half() * 1731 > 40) {
      doubts.add(
          String.format(
              Locale.ROOT,
              "the tuning leaves open by how many semitones the side is off: x %.4f or x %.4f would fit as well",
              factor * StrictMath.pow(2, -1 / 12.0),
              factor * StrictMath.pow(2, 1 / 12.0)));
    }
    evidence.add(
        new SpeedEvidence(
            SpeedEvidence.Kind.TUNING,
            factor,
            tuning.halfCents() * StrictMath.log(2) / 1200,
            tuning.reason()
                + (semitones == 0
                    ? ""
                    : String.format(
                        Locale.ROOT,
                        "; moved by %+.0f semitones to what else is known",
                        semitones))));
  }
}
