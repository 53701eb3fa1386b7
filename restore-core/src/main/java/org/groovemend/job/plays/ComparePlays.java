package org.groovemend.job.plays;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.groovemend.audio.SideReader;
import org.groovemend.chain.Progress;
import org.groovemend.chain.RepairSample;
import org.groovemend.chain.SideChain;
import org.groovemend.click.CaptureAnalyser;
import org.groovemend.click.ClickAnalyser;
import org.groovemend.click.ClickParameters;
import org.groovemend.click.ClickStage;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.side.WatchedRanges;
import org.groovemend.job.side.WholeWords;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/** Says which of several plays or copies of a side is better, where, and by how much. */
public final class ComparePlays {
  private static final double SAMPLE_SECONDS = 60;

  private ComparePlays() {}

  /**
   * What is asked.
   *
   * @param plays two or more; the first is the reference, whose level and time the figures are in
   * @param captured how the transfers were made, for the click rate; if unknown, clicks are asked
   * @param page HTML to write as well, or null
   * @param picture PNG to write as well, or null
   * @param replace whether these may replace files
   * @param program name and version, for the page
   * @param preparedAt date and time, for the page
   */
  public record Request(
      List<Path> plays,
      CaptureCurve captured,
      Path page,
      Path picture,
      boolean replace,
      String program,
      String preparedAt) {
    public Request {
      plays = List.copyOf(plays);
    }
  }

  /**
   * What was found.
   *
   * @param plays in the order they were given
   * @param ranking their numbers, best first
   * @param everywhere places that are damaged in all plays
   * @param fromSeconds where all are there, of the reference
   * @param toSeconds where one of them ends
   * @param rateHz of the reference
   */
  public record Finding(
      List<PlayMeasures> plays,
      List<Integer> ranking,
      long everywhere,
      double fromSeconds,
      double toSeconds,
      int rateHz) {
    public Finding {
      plays = List.copyOf(plays);
      ranking = List.copyOf(ranking);
    }
  }

  /**
   * Reads the plays; writes page and picture if asked, nothing else.
   *
   * @throws RequestRefusedException if these are not different files
   * @throws org.groovemend.audio.InputRejectedException if one cannot be taken or is no play of the
   *     same performance
   * @throws org.groovemend.delivery.OutputExistsException if page or picture is there already
   */
  public static Finding run(Request request, Crew crew, Progress progress) throws IOException {
    try (OpenPlays plays = OpenPlays.open(request.plays(), crew, progress)) {
      List<PlayMeasures> all = new ArrayList<>();
      for (int p = 0; p < plays.count(); p++) {
        all.add(PlayMeasures.of(plays, p, repairs(plays, p, request.captured(), progress)));
      }
      plays.requireUnchanged();
      List<PlayMeasures> ranked = ranked(all);
      List<Integer> order = new ArrayList<>();
      for (int p = 0; p < ranked.size(); p++) {
        order.add(p);
      }
      order.sort(
          Comparator.comparingInt((Integer p) -> ranked.get(p).points())
              .thenComparingDouble(p -> ranked.get(p).noiseDba()));
      Finding finding =
          new Finding(
              ranked,
              order,
              plays.survey().counts()[plays.count()],
              plays.set().fromSeconds(),
              plays.set().toSeconds(),
              plays.set().rate());
      if (request.picture() != null) {
        WholeFile.write(
            request.picture(), PlaysPage.picture(finding), request.replace(), request.plays());
      }
      if (request.page() != null) {
        WholeFile.write(
            request.page(),
            PlaysPage.page(finding, request).getBytes(StandardCharsets.UTF_8),
            request.replace(),
            request.plays());
      }
      return finding;
    }
  }

  private static double repairs(OpenPlays plays, int play, CaptureCurve captured, Progress progress)
      throws IOException {
    SideReader side = plays.sides().get(play);
    ClickParameters parameters = ClickParameters.defaults();
    RangeReader read =
        new WatchedRanges(
            new SideChain(List.of()).reader(WholeWords.of(side, plays.facts(play).levels())),
            progress,
            "counting clicks",
            play,
            plays.count());
    CaptureCurve curve =
        captured.isKnown() ? captured : CaptureAnalyser.analyse(read, parameters).curve();
    ClickStage stage =
        new ClickStage(parameters, ClickAnalyser.analyse(read, parameters, curve), curve);
    double each = stage.segmentation(side.format()).segmentFrames();
    int segments = (int) Math.max(1, side.format().frames(SAMPLE_SECONDS) / each);
    RepairSample sample = SideChain.sample(read, stage, segments);
    return 60 * sample.repairs().size() / side.format().seconds(sample.frames());
  }

  /** A point for each play that is better, by each measure. */
  private static List<PlayMeasures> ranked(List<PlayMeasures> plays) {
    List<ToDoubleFunction<PlayMeasures>> measures =
        List.of(
            p -> Math.rint(10 * p.noiseDba()),
            PlayMeasures::clicksAloneAMinute,
            p -> -p.extentHertz(),
            p -> Math.rint(p.loudExcessDb()));
    List<PlayMeasures> ranked = new ArrayList<>();
    for (PlayMeasures one : plays) {
      int points = 0;
      for (ToDoubleFunction<PlayMeasures> measure : measures) {
        for (PlayMeasures other : plays) {
          points += measure.applyAsDouble(other) < measure.applyAsDouble(one) ? 1 : 0;
        }
      }
      ranked.add(one.withPoints(points));
    }
    return ranked;
  }
}
