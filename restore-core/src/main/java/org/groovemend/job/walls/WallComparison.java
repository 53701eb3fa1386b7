package org.groovemend.job.walls;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.WatchedRanges;
import org.groovemend.report.Pictures;
import org.groovemend.stage.RangeReader;
import org.groovemend.walls.WallAnalyser;
import org.groovemend.walls.WallFinding;

/** Compares the two groove walls of a transfer, as captured; the file is only read. */
public final class WallComparison {

  private WallComparison() {}

  /**
   * What is asked for.
   *
   * @param side transfer
   * @param picture to write as well, or null
   * @param replace whether a picture that exists is written over
   */
  public record Request(Path side, Path picture, boolean replace) {}

  /**
   * What was found.
   *
   * @param format of the side
   * @param frames length of the side
   * @param walls how they agree
   */
  public record Finding(AudioFormat format, long frames, WallFinding walls) {}

  /**
   * Reads the side.
   *
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   * @throws RequestRefusedException if a picture is wanted of a side that has no two walls to
   *     compare
   * @throws org.groovemend.delivery.OutputExistsException if the picture exists
   */
  public static Finding run(Request request, Progress progress) throws IOException {
    try (SideReader side = SideFiles.open(request.side())) {
      long frames = side.frames();
      RangeReader watched =
          new WatchedRanges(
              new SideChain(List.of()).reader(side), progress, "comparing the walls", 0, 1);
      Finding finding = new Finding(side.format(), frames, WallAnalyser.analyse(watched));
      if (request.picture() != null) {
        draw(request, finding);
      }
      return finding;
    }
  }

  private static void draw(Request request, Finding finding) throws IOException {
    if (finding.walls().bands().isEmpty()) {
      throw new RequestRefusedException("there is no picture to draw: " + finding.walls().reason());
    }
    WholeFile.write(
        request.picture(),
        Pictures.charts(WallChart.of(finding)),
        request.replace(),
        List.of(request.side()));
  }
}
