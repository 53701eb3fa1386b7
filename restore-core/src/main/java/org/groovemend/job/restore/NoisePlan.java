package org.groovemend.job.restore;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.StageNotPossibleException;
import org.groovemend.surfacenoise.GrooveNoise;
import org.groovemend.surfacenoise.NoiseAnalyser;
import org.groovemend.surfacenoise.NoiseParameters;
import org.groovemend.surfacenoise.SideNoise;
import org.groovemend.surfacenoise.SwingFinder;
import org.groovemend.surfacenoise.TurnSwing;

/**
 * Where the noise stage takes the noise from.
 *
 * @param noise along the side, or null if the stage cannot work
 * @param of the side it was taken from if not from this one, or null
 * @param doubt a sentence for people, or null
 */
record NoisePlan(SideNoise noise, OtherGroove of, String doubt) {
  static final NoisePlan NONE = new NoisePlan(null, null, null);

  /**
   * Listens to the bare groove.
   *
   * @param side as the stages before leave it
   * @param captured the side as captured, to be read once as a whole: what swings with the disc is
   *     heard through clicks too, and to repair them for this would be to do so twice
   * @param other to be taken instead of this side's own, or null
   * @throws RequestRefusedException if the stretch that a person stated is too short
   */
  static NoisePlan make(
      RangeReader side,
      RangeReader captured,
      LeadInFinding leadIn,
      OtherGroove other,
      NoiseParameters parameters)
      throws IOException {
    NoisePlan still = still(side, leadIn, other, parameters);
    if (still.noise == null || other != null) { // where the other side stood is not known
      return still;
    }
    TurnSwing swing = SwingFinder.find(captured, still.noise, parameters);
    return new NoisePlan(still.noise.withSwing(swing), null, still.doubt);
  }

  /** Without the turning of the disc. */
  private static NoisePlan still(
      RangeReader side, LeadInFinding leadIn, OtherGroove other, NoiseParameters parameters)
      throws IOException {
    if (other != null) {
      return new NoisePlan(new SideNoise(other.noise(), null), other, null);
    }
    GrooveNoise end = NoiseAnalyser.analyseRunOut(side, leadIn, parameters);
    if (!leadIn.found()) {
      return end == null
          ? skipped(
              "no groove-only stretch was found ("
                  + leadIn.reason()
                  + "). State one with --lead-in FROM-TO if you know it, or take another side's with --groove-of FILE.")
          : ofTheRunOut(end, "No bare groove was found before the music (" + leadIn.reason() + ")");
    }
    try {
      return new NoisePlan(
          new SideNoise(NoiseAnalyser.analyse(side, leadIn, parameters), end), null, null);
    } catch (StageNotPossibleException tooShort) {
      if (leadIn.stated()) {
        throw new RequestRefusedException(tooShort.getMessage());
      }
      if (end == null) {
        return skipped(tooShort.getMessage() + ", or take another side's with --groove-of FILE.");
      }
      AudioFormat format = side.format();
      return ofTheRunOut(
          end,
          String.format(
              Locale.ROOT,
              "The bare groove before the music, from %.3f to %.3f s, is too short for a noise spectrum",
              format.seconds(leadIn.startFrame()),
              format.seconds(leadIn.endFrame())));
    }
  }

  private static NoisePlan ofTheRunOut(GrooveNoise runOut, String why) {
    return new NoisePlan(
        new SideNoise(runOut, null),
        null,
        why + "; the noise was taken from the run-out behind it.");
  }

  private static NoisePlan skipped(String why) {
    return new NoisePlan(null, null, "The noise stage was skipped: " + why);
  }

  /** What goes into the ledger. */
  Map<String, Object> finding() {
    Map<String, Object> finding = new LinkedHashMap<>();
    if (of != null) {
      finding.put("of", of.asMap());
      // nothing else of that side is at hand when the treatment is run again
      finding.put(OtherGroove.UNSTEADINESS, noise.leadIn().unsteadiness());
    }
    put(finding, noise.leadIn());
    if (noise.runOut() != null) {
      Map<String, Object> end = new LinkedHashMap<>();
      put(end, noise.runOut());
      finding.put("runOut", end);
    }
    if (noise.swing() != null) {
      finding.put("swing", noise.swing());
    }
    return finding;
  }

  private static void put(Map<String, Object> finding, GrooveNoise noise) {
    finding.put("startFrame", noise.startFrame());
    finding.put("endFrame", noise.endFrame());
    finding.put("frameLength", noise.frameLength());
    finding.put("framesUsed", noise.framesUsed());
    finding.put("framesRejected", noise.framesRejected());
    finding.put("uncertaintyDb", noise.uncertaintyDb());
    finding.put("thirdOctaves", noise.thirdOctaves());
    finding.put("power", noise.power());
  }
}
