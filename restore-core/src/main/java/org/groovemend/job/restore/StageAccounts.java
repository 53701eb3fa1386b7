package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.hum.HumFinding;
import org.groovemend.job.side.Survey;
import org.groovemend.measure.Decibels;
import org.groovemend.report.StageAccount;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/** Says of every stage what it did to a side, or why it did nothing. */
public final class StageAccounts {

  private final RestoreRequest request;
  private final Survey survey;
  private final Plan plan;
  private final Bookkeeping.Sums sums;
  private final RepairAmounts amounts;
  private final SignalTaken taken;
  private final RestoreOutcome outcome;
  private final AudioFormat format;

  StageAccounts(
      RestoreRequest request,
      PreparedSide prepared,
      Bookkeeping.Sums sums,
      RepairAmounts amounts,
      SignalTaken taken,
      RestoreOutcome outcome) {
    this.request = request;
    this.survey = prepared.survey();
    this.plan = prepared.plan();
    this.sums = sums;
    this.amounts = amounts;
    this.taken = taken;
    this.outcome = outcome;
    this.format = survey.facts().format();
  }

  /** In the order of the treatment. */
  List<StageAccount> all() {
    List<StageAccount> accounts = new ArrayList<>();
    Treatment treatment = request.treatment();
    for (StageParameters parameters : treatment.parameters()) {
      StageId stage = parameters.stage();
      if (!treatment.has(stage)) {
        accounts.add(leftOut(stage, "Not asked for."));
      } else if (survey.levels().silent()) {
        accounts.add(
            leftOut(stage, "Every sample of the side is zero: there was nothing to treat."));
      } else if (stage == StageId.CLICKS && plan.clicks() != null) {
        accounts.add(
            repaired(
                parameters,
                "The side was searched for clicks; none stood out, and nothing was changed.",
                "Places that cannot be foretold from their surroundings were taken as unknown and filled from them."));
      } else if (stage == StageId.CRACKLE && plan.crackle() != null) {
        accounts.add(
            repaired(
                parameters,
                "The repaired side was searched once more for small clicks; none stood out, and nothing was changed.",
                "The repaired side was searched once more for small clicks, which were filled in the same way."));
      } else if (stage == StageId.THUMPS && !treatment.thumps().isNeutral()) {
        accounts.add(
            repaired(
                parameters,
                "The side was searched for thumps; none was certain enough, and nothing was changed.",
                "Low rings that begin at once and fall in pitch were parted from the music and taken out."));
      } else if (stage == StageId.HUM && plan.hum() != null) {
        accounts.add(hum(parameters));
      } else if (stage == StageId.RUMBLE && plan.rumble() != null) {
        accounts.add(
            RumblePage.account(
                parameters, plan.rumble(), taken.rumble(), survey.facts().frames(), format));
      } else if (stage == StageId.CURVE && taken.curve() != null) {
        accounts.add(curve(parameters));
      } else if (stage == StageId.MONO
          && plan.walls() != null
          && !plan.skipped().containsKey(stage)) {
        accounts.add(WallsPage.account(treatment.mono(), plan.walls(), taken.walls(), format));
      } else if (stage == StageId.NOISE && plan.noise() != null) {
        accounts.add(noise(parameters));
      } else {
        accounts.add(
            leftOut(stage, plan.skipped().getOrDefault(stage, "Switched off by its settings.")));
      }
    }
    return accounts;
  }

  private StageAccount repaired(StageParameters parameters, String none, String some) {
    StageId stage = parameters.stage();
    RepairAmounts.Amount taken = amounts.of(stage);
    long edits = sums.editsByStage().getOrDefault(stage, 0L);
    double samples = survey.facts().frames() * (double) format.channels();
    return new StageAccount(
        name(stage),
        true,
        edits == 0 ? none : some,
        SideFindings.ofSettings(parameters),
        edits,
        taken.samples(),
        taken.samples() / (double) format.channels() / format.sampleRateHz(),
        Decibels.ofPower(taken.energy() / samples),
        Decibels.ofAmplitude(taken.peak()));
  }

  /** Levels are of the lines as they are subtracted. */
  private StageAccount hum(StageParameters parameters) {
    HumFinding hum = plan.hum();
    if (!hum.found()) {
      return new StageAccount(
          name(StageId.HUM),
          true,
          hum.reason() + " Nothing was changed.",
          SideFindings.ofSettings(parameters),
          0,
          0,
          0,
          Double.NaN,
          Double.NaN);
    }
    return new StageAccount(
        name(StageId.HUM),
        true,
        hum.reason() + " The lines were followed and subtracted down to the neighbouring floor.",
        SideFindings.ofSettings(parameters),
        -1,
        survey.facts().frames() * format.channels(),
        survey.facts().frames() / (double) format.sampleRateHz(),
        hum.meanSquareDbfs(format.channels()),
        hum.peakDbfs());
  }

  private StageAccount curve(StageParameters parameters) {
    return new StageAccount(
        name(StageId.CURVE),
        true,
        CurvePlan.account(plan.curve().parameters(), taken.curve()),
        SideFindings.ofSettings(parameters),
        -1,
        survey.facts().frames() * format.channels(),
        format.seconds(survey.facts().frames()),
        taken.curve().removedRmsDbfs(),
        taken.curve().removedPeakDbfs());
  }

  private StageAccount noise(StageParameters parameters) {
    Bookkeeping.Difference outside = sums.outsideEdits();
    return new StageAccount(
        name(StageId.NOISE),
        true,
        "Noise measured in the bare groove"
            + (plan.noisePlan().of() == null ? "" : " of " + plan.noisePlan().of().fileName())
            + (plan.noise().runOut() == null
                ? ""
                : " of lead-in and run-out, the one turning into the other,")
            + " was lowered in the spectrum; levels are of what was taken outside repaired places.",
        SideFindings.ofSettings(parameters),
        -1,
        outcome.changedSamples(),
        outcome.changedSamples() / (double) format.channels() / format.sampleRateHz(),
        Decibels.ofPower(outside.meanSquare()),
        Decibels.ofAmplitude(outside.peak()));
  }

  private static StageAccount leftOut(StageId stage, String why) {
    return new StageAccount(name(stage), false, why, List.of(), 0, 0, 0, Double.NaN, Double.NaN);
  }

  public static String name(StageId stage) {
    String key = stage == StageId.NOISE ? "surface noise" : stage.key();
    return key.substring(0, 1).toUpperCase(Locale.ROOT) + key.substring(1);
  }
}
