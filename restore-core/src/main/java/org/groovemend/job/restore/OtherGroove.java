package org.groovemend.job.restore;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.Survey;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.surfacenoise.GrooveNoise;

/**
 * The bare groove of another side, for a side that shows none of its own.
 *
 * @param fileName of that side
 * @param sha256 of that file
 * @param noise spectrum of its bare groove after clicks and thumps are repaired
 */
public record OtherGroove(String fileName, String sha256, GrooveNoise noise) {

  /** Name in the finding. */
  static final String UNSTEADINESS = "unsteadiness";

  /**
   * Reads the other side; nothing is written.
   *
   * @param format of the side that is to be treated
   * @throws RequestRefusedException if the other side differs from it in rate or channels, or shows
   *     no bare groove either
   */
  static OtherGroove of(
      Path file, AudioFormat format, Treatment treatment, Crew crew, Progress progress)
      throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      AudioFormat of = side.format();
      if (of.sampleRateHz() != format.sampleRateHz() || of.channels() != format.channels()) {
        throw new RequestRefusedException(
            "the groove of "
                + file.getFileName()
                + " cannot be taken: it has "
                + of.channels()
                + " channels at "
                + of.sampleRateHz()
                + " Hz, the side has "
                + format.channels()
                + " at "
                + format.sampleRateHz()
                + " Hz; give a transfer made in the same way");
      }
      Survey survey = Survey.of(side, crew, progress);
      LeadInFinding stretch = survey.leadIn();
      if (!stretch.found()) {
        throw new RequestRefusedException(
            "no groove-only stretch was found in "
                + file.getFileName()
                + " ("
                + stretch.reason()
                + "); give another side of the disc");
      }
      RangeReader repaired = GrooveSound.repaired(side, survey, stretch, treatment, crew, progress);
      return new OtherGroove(
          survey.facts().name(),
          survey.facts().sha256(),
          GrooveSound.sound(repaired, stretch, treatment.noise()));
    }
  }

  /**
   * As a ledger tells it, so that the other side need not be at hand.
   *
   * @param finding of the noise stage
   * @throws NotRepeatedException if the ledger is of an earlier program that did not write down all
   *     of it
   */
  public static OtherGroove ofLedger(Map<String, Object> finding, AudioFormat format) {
    Map<?, ?> of = (Map<?, ?>) finding.get("of");
    if (!finding.containsKey(UNSTEADINESS)) {
      throw new NotRepeatedException(
          "the noise, taken of " + of.get("name"),
          "written down whole",
          "not, by a program that did not do so yet");
    }
    GrooveNoise noise =
        new GrooveNoise(
            format.sampleRateHz(),
            whole(finding, "frameLength"),
            (Long) finding.get("startFrame"),
            (Long) finding.get("endFrame"),
            whole(finding, "framesUsed"),
            whole(finding, "framesRejected"),
            (Double) finding.get("uncertaintyDb"),
            lines(finding.get("power")),
            lines(finding.get(UNSTEADINESS)));
    return new OtherGroove((String) of.get("name"), (String) of.get("sha256"), noise);
  }

  private static int whole(Map<String, Object> finding, String name) {
    return Math.toIntExact((Long) finding.get(name));
  }

  private static double[][] lines(Object byChannel) {
    return ((List<?>) byChannel)
        .stream()
            .map(
                channel ->
                    ((List<?>) channel)
                        .stream().mapToDouble(line -> ((Number) line).doubleValue()).toArray())
            .toArray(double[][]::new);
  }

  /** Which file it was, for the ledger. */
  Map<String, Object> asMap() {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("name", fileName);
    map.put("sha256", sha256);
    return map;
  }
}
