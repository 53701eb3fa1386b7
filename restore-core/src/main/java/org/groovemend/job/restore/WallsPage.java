package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.SideChain;
import org.groovemend.report.Fact;
import org.groovemend.report.StageAccount;
import org.groovemend.stage.StageId;
import org.groovemend.walls.DelayFinding;
import org.groovemend.walls.MonoParameters;
import org.groovemend.walls.WallFinding;

/** How the groove walls agree and what was made of them, in words for the page. */
final class WallsPage {

  private WallsPage() {}

  /** What was measured. */
  static List<Fact> found(WallFinding walls, AudioFormat format) {
    List<Fact> facts = new ArrayList<>();
    facts.add(
        new Fact(
            "Groove walls",
            walls.verdict().key().replace('_', ' '),
            "",
            String.format(
                Locale.ROOT, "Confidence %.0f %%. %s", 100 * walls.confidence(), walls.reason())));
    if (Double.isFinite(walls.delay().doubtSamples())) {
      facts.add(
          new Fact(
              "Right wall behind left",
              String.format(Locale.ROOT, "%.3f", walls.delay().samples()),
              "samples",
              delay(walls.delay(), format)));
    }
    if (Double.isFinite(walls.balanceDoubtDb())) {
      facts.add(
          new Fact(
              "Right wall re left",
              String.format(Locale.ROOT, "%.2f", walls.balanceDb()),
              "dB",
              String.format(
                  Locale.ROOT,
                  "Of what both share, octaves alike; standard deviation %.2f dB.",
                  walls.balanceDoubtDb())));
    }
    return facts;
  }

  /** The delay in microseconds with its doubt and drift. */
  static String delay(DelayFinding delay, AudioFormat format) {
    double micro = 1e6 / format.sampleRateHz();
    return String.format(
        Locale.ROOT,
        "%.2f microseconds, standard deviation %.2f; %s.",
        micro * delay.samples(),
        micro * delay.doubtSamples(),
        delay.driftSamples() == 0
            ? "no drift stands out"
            : String.format(
                Locale.ROOT,
                "%.2f more at the end than at the beginning",
                micro * delay.driftSamples()));
  }

  /** Words for the summary; empty if the stage does not run. */
  static String summary(SideChain chain) {
    boolean runs =
        chain.stages().stream().anyMatch(stage -> stage.parameters().stage() == StageId.MONO);
    return !runs ? "" : chain.joinsChannels() ? " joined into one signal" : " aligned";
  }

  /**
   * What was done.
   *
   * @param weights null if nothing was
   */
  static StageAccount account(
      MonoParameters parameters, WallFinding walls, WallWeights weights, AudioFormat format) {
    boolean some = weights != null;
    return new StageAccount(
        StageAccounts.name(StageId.MONO),
        true,
        some
            ? did(parameters, walls, weights, format)
            : "The walls were measured; nothing was changed.",
        SideFindings.ofSettings(parameters),
        some ? -1 : 0,
        some ? weights.changed() : 0,
        some ? weights.changed() / (double) format.channels() / format.sampleRateHz() : 0,
        some ? weights.removedRmsDbfs() : Double.NaN,
        some ? weights.removedPeakDbfs() : Double.NaN);
  }

  private static String did(
      MonoParameters parameters, WallFinding walls, WallWeights weights, AudioFormat format) {
    StringBuilder text = new StringBuilder();
    boolean shifted = walls.delay().largest() > 0;
    text.append(
        shifted
            ? "Each wall was shifted by half the delay: " + delay(walls.delay(), format)
            : "No delay between the walls stands out; none was taken out.");
    if (walls.delay().opposed()) {
      text.append(" The right wall, of opposite sense, was turned round.");
    }
    if (parameters.result() == MonoParameters.Result.ALIGNED) {
      text.append(" Levels were made alike; the walls stay two signals.");
    } else if (!weights.told()) {
      text.append(" Half of each wall makes one signal, the same words in both channels.");
    } else {
      double[] share = weights.leftShares();
      text.append(
          String.format(
              Locale.ROOT,
              " The walls were weighed for the least noise, by octave and passage: from 1 to 8 kHz the left wall has %.0f to %.0f %%"
                  + " of the music, %.0f %% in the mean; every weight is in the ledger. One signal came of it, the same words in both"
                  + " channels.",
              100 * share[0],
              100 * share[2],
              100 * share[1]));
    }
    return text.toString();
  }
}
