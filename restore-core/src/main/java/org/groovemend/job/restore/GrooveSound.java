package org.groovemend.job.restore;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.TimeRange;
import org.groovemend.job.side.WatchedRanges;
import org.groovemend.job.side.WholeWords;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.report.Pictures;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageNotPossibleException;
import org.groovemend.surfacenoise.GrooveNoise;
import org.groovemend.surfacenoise.NoiseAnalyser;
import org.groovemend.surfacenoise.NoiseParameters;

/** Says what the bare groove of a transfer sounds like, as the noise stage would take it. */
public final class GrooveSound {

  private GrooveSound() {}

  /**
   * What is asked.
   *
   * @param side the transfer
   * @param leadIn stretch to take, or null to find one
   * @param captured how the transfer was made
   * @param picture PNG file to write, or null for none
   * @param replace whether it may replace a file
   */
  public record Request(
      Path side, TimeRange leadIn, CaptureCurve captured, Path picture, boolean replace) {}

  /**
   * What was found.
   *
   * @param stretch where it was found
   * @param leadIn sound of that stretch after clicks and thumps are repaired
   * @param runOut the like behind the music, or null if there is none long enough
   */
  public record Finding(LeadInFinding stretch, GrooveNoise leadIn, GrooveNoise runOut) {}

  /**
   * Reads a transfer; writes nothing but the picture, whole or not at all.
   *
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   * @throws RequestRefusedException if no stretch of bare groove is there
   * @throws org.groovemend.delivery.OutputExistsException if the picture is there already and may
   *     not be replaced
   */
  public static Finding run(Request request, Crew crew, Progress progress) throws IOException {
    try (SideReader side = SideFiles.open(request.side())) {
      Survey survey = Survey.of(side, crew, progress);
      LeadInFinding stretch =
          StatedLeadIn.orFound(request.leadIn(), survey, side.format(), side.frames());
      if (!stretch.found()) {
        throw new RequestRefusedException(
            "no groove-only stretch was found ("
                + stretch.reason()
                + "); state one with --lead-in FROM-TO if you know it");
      }
      Treatment like = Treatment.defaults().withCaptured(request.captured());
      RangeReader repaired = repaired(side, survey, stretch, like, crew, progress);
      NoiseParameters parameters = NoiseParameters.defaults();
      Finding finding =
          new Finding(
              stretch,
              sound(repaired, stretch, parameters),
              NoiseAnalyser.analyseRunOut(repaired, stretch, parameters));
      if (request.picture() != null) {
        draw(request, finding);
      }
      return finding;
    }
  }

  /**
   * The side with its clicks and thumps repaired, through the curve of a treatment and its walls
   * joined if it says so, in memory.
   *
   * @throws RequestRefusedException if they are to be joined and cannot be
   */
  static RangeReader repaired(
      SideReader side,
      Survey survey,
      LeadInFinding stretch,
      Treatment like,
      Crew crew,
      Progress progress)
      throws IOException {
    List<StageId> stages = new ArrayList<>(List.of(StageId.CLICKS, StageId.THUMPS));
    if (like.has(StageId.CURVE)) {
      stages.add(StageId.CURVE);
    }
    if (like.has(StageId.MONO)) {
      stages.add(StageId.MONO);
    }
    Treatment treatment =
        Treatment.defaults()
            .withCaptured(like.captured())
            .withCurve(like.curve())
            .withMono(like.mono())
            .withStages(stages);
    WordSource whole = WholeWords.of(side, survey.levels());
    Plan plan = Plan.make(whole, treatment, stretch, null, crew, progress);
    if (plan.skipped().containsKey(StageId.MONO)) {
      throw new RequestRefusedException(
          side.path().getFileName() + ": " + plan.skipped().get(StageId.MONO));
    }
    return new WatchedRanges(plan.chain().reader(whole), progress, "listening to the groove", 0, 1);
  }

  /**
   * The spectrum of a stretch.
   *
   * @throws RequestRefusedException if it is too short
   */
  static GrooveNoise sound(RangeReader side, LeadInFinding stretch, NoiseParameters parameters)
      throws IOException {
    try {
      return NoiseAnalyser.analyse(side, stretch, parameters);
    } catch (StageNotPossibleException tooShort) {
      throw new RequestRefusedException(tooShort.getMessage());
    }
  }

  private static void draw(Request request, Finding finding) throws IOException {
    WholeFile.write(
        request.picture(),
        Pictures.chart(GrooveChart.of(finding)),
        request.replace(),
        List.of(request.side()));
  }
}
