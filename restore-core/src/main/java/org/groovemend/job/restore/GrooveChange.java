package org.groovemend.job.restore;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.measure.LevelTrack;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.StageNotPossibleException;
import org.groovemend.surfacenoise.GrooveNoise;
import org.groovemend.surfacenoise.NoiseAnalyser;
import org.groovemend.surfacenoise.NoiseParameters;

/**
 * The noise floor before and after: the same stretch of the transfer as it came and of the clean
 * copy, measured as the noise stage measures it, spectra with clicks that stand out left aside.
 *
 * @param place what kind of stretch it is
 * @param before of the transfer
 * @param after of the clean copy
 */
public record GrooveChange(Place place, GrooveNoise before, GrooveNoise after) {

  /** Name of the finding in the ledger. */
  public static final String FINDING = "noiseFloor";

  /** Length of the quietest passage that stands in for bare groove. */
  private static final double STAND_IN_SECONDS = 1.5;

  /** Where the floor was measured. */
  enum Place {
    STATED("lead-in", "the stretch stated as bare groove"),
    LEAD_IN("lead-in", "the bare groove of the lead-in"),
    RUN_OUT("run-out", "the bare groove of the run-out, as no lead-in long enough was found"),
    QUIETEST(
        "quietest passage",
        "the quietest passage, as no bare groove was found: it may hold music, and the floor may be lower");

    private final String key;
    private final String words;

    Place(String key, String words) {
      this.key = key;
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  private record Candidate(Place place, LeadInFinding stretch) {}

  /**
   * Measures the best stretch there is.
   *
   * @return null if the side is too short or too silent for any
   */
  public static GrooveChange of(
      RangeReader before, RangeReader after, LeadInFinding leadIn, LevelTrack levels)
      throws IOException {
    for (Candidate candidate : candidates(leadIn, levels, before.format().sampleRateHz())) {
      try {
        return new GrooveChange(
            candidate.place(),
            noise(before, candidate.stretch()),
            noise(after, candidate.stretch()));
      } catch (StageNotPossibleException tooShort) {
        // the next may be longer
        continue;
      }
    }
    return null;
  }

  private static GrooveNoise noise(RangeReader side, LeadInFinding stretch) throws IOException {
    return NoiseAnalyser.analyse(side, stretch, NoiseParameters.defaults());
  }

  private static List<Candidate> candidates(
      LeadInFinding leadIn, LevelTrack levels, int sampleRateHz) {
    List<Candidate> candidates = new ArrayList<>();
    if (leadIn.found()) {
      candidates.add(new Candidate(leadIn.stated() ? Place.STATED : Place.LEAD_IN, leadIn));
    }
    if (leadIn.runOut() != null) {
      LeadInFinding.RunOut runOut = leadIn.runOut();
      candidates.add(
          new Candidate(
              Place.RUN_OUT,
              LeadInFinding.stated(runOut.startFrame(), runOut.endFrame(), levels.frames())));
    }
    int length = (int) Math.ceil(STAND_IN_SECONDS * sampleRateHz / levels.slotFrames());
    int quietest = levels.quietest(length);
    if (quietest >= 0) {
      candidates.add(
          new Candidate(
              Place.QUIETEST,
              LeadInFinding.stated(
                  levels.start(quietest), levels.end(quietest + length - 1), levels.frames())));
    }
    return candidates;
  }

  boolean bareGroove() {
    return place != Place.QUIETEST;
  }

  /** For the ledger and other machines. */
  public Map<String, Object> asMap() {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("place", place.key);
    map.put("before", GrooveLevels.asMap(before));
    map.put("after", GrooveLevels.asMap(after));
    return map;
  }
}
