package org.groovemend.job.speed;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.restore.DiscDrawing;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.WatchedRanges;
import org.groovemend.ledger.Ledger;
import org.groovemend.report.Pictures;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.groovemend.rotation.TickGatherer;
import org.groovemend.speed.SpeedAnalyser;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.speed.SpeedQuestion;

/** Says how fast a side ought to run, and why; changes nothing. */
public final class SpeedSurvey {
  private SpeedSurvey() {}

  /**
   * What is asked.
   *
   * @param side a transfer or its clean copy
   * @param question what is known beforehand; its rotation is taken from the ledger, if there is
   *     one
   * @param ledger of the side, or null
   * @param picture PNG file to write, or null for none
   * @param replace whether it may replace a file
   */
  public record Request(
      Path side, SpeedQuestion question, Path ledger, Path picture, boolean replace) {}

  /**
   * Reads a side; writes nothing but the picture, whole or not at all.
   *
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   * @throws RequestRefusedException if nothing in the side tells of its speed, or the ledger is of
   *     another side
   * @throws org.groovemend.delivery.OutputExistsException if the picture is there already and may
   *     not be replaced
   */
  public static SpeedFinding run(Request request, Progress progress) throws IOException {
    try (SideReader side = SideFiles.open(request.side())) {
      SpeedQuestion asked = request.question();
      SpeedQuestion question =
          request.ledger() == null
              ? asked
              : new SpeedQuestion(
                  asked.a4Hz(),
                  asked.playedRpm(),
                  asked.meantRpm(),
                  asked.radii(),
                  asked.hum(),
                  rotation(request.ledger(), side));
      SpeedFinding finding =
          SpeedAnalyser.analyse(
              new WatchedRanges(
                  new SideChain(List.of()).reader(side), progress, "listening to the pitch", 0, 1),
              question);
      if (finding.estimate().evidence().isEmpty() && !finding.wow().found()) {
        throw new RequestRefusedException(
            "nothing in this side tells its speed ("
                + finding.tuning().reason()
                + "; "
                + finding.wow().reason()
                + "); state a --factor, or --played and --meant, if you know them");
      }
      if (request.picture() != null) {
        draw(request, finding, side.format().seconds(side.frames()));
      }
      return finding;
    }
  }

  private static RotationFinding rotation(Path file, SideReader side) throws IOException {
    Ledger ledger = Ledger.open(file);
    if (ledger.header().original().frames() != side.frames()
        || ledger.header().original().format().sampleRateHz() != side.format().sampleRateHz()) {
      throw new RequestRefusedException(
          file + " is the ledger of a side of another length or rate; give that of this one");
    }
    TickGatherer ticks = new TickGatherer(side.format().sampleRateHz());
    ledger.forEachEdit(
        edit -> DiscDrawing.tick(ticks, edit.stage(), edit.start(), edit.statistic()));
    return RotationSearch.of(ticks);
  }

  private static void draw(Request request, SpeedFinding finding, double seconds)
      throws IOException {
    List<Path> inputs = new ArrayList<>(List.of(request.side()));
    if (request.ledger() != null) {
      inputs.add(request.ledger());
    }
    WholeFile.write(
        request.picture(),
        Pictures.charts(SpeedChart.of(finding, seconds)),
        request.replace(),
        inputs);
  }
}
