package org.groovemend.job.bands;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.bands.BandListException;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;
import org.groovemend.bands.BandPlanner;
import org.groovemend.bands.BandSurvey;
import org.groovemend.bands.BandWish;
import org.groovemend.bands.LevelColumns;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.WholeFile;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.report.LevelCourse;
import org.groovemend.report.Pictures;

/** Finds the bands of a side, writes nothing of it but a picture or a list. */
public final class BandJob {
  private BandJob() {}

  /**
   * Reads a side once.
   *
   * @throws org.groovemend.audio.InputRejectedException if the file cannot be taken
   */
  public static BandSurvey survey(Path file, Progress progress) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      long frames = side.frames();
      return BandSurvey.of(
          new SideChain(List.of()).reader(side),
          done -> progress.at("listening for gaps", done, frames));
    }
  }

  /**
   * Where to cut.
   *
   * @throws RequestRefusedException if the wish does not fit the side
   */
  public static BandPlan plan(BandSurvey survey, BandWish wish) {
    try {
      return BandPlanner.plan(survey, wish);
    } catch (BandListException e) {
      throw new RequestRefusedException(e.getMessage());
    }
  }

  /** Level over time, groove noise and cuts as a PNG file. */
  public static void draw(
      BandSurvey survey, BandPlan plan, Path png, boolean replace, List<Path> inputs)
      throws IOException {
    WholeFile.write(png, Pictures.levels(course(survey, plan)), replace, inputs);
  }

  /** A list in the form that the file's name tells. */
  public static void list(BandPlan plan, Path file, boolean replace, List<Path> inputs)
      throws IOException {
    byte[] text = BandListFile.text(plan, file).getBytes(StandardCharsets.UTF_8);
    WholeFile.write(file, text, replace, inputs);
  }

  private static LevelCourse course(BandSurvey survey, BandPlan plan) {
    LevelColumns columns = survey.columns(Pictures.COLUMNS);
    List<LevelCourse.Cut> cuts = new ArrayList<>();
    for (BandPiece piece : plan.pieces()) {
      if (piece.firstFrame() > 0 || piece.kind() == BandPiece.Kind.BAND) {
        boolean band = piece.kind() == BandPiece.Kind.BAND;
        cuts.add(
            new LevelCourse.Cut(
                piece.firstFrame(),
                band ? String.valueOf(piece.number()) : "out",
                piece.confidence() >= 0.5));
      }
    }
    for (BandPlan.QuietPlace place : plan.perhaps()) {
      cuts.add(new LevelCourse.Cut(place.frame(), "?", false));
    }
    return new LevelCourse(
        survey.frames(),
        survey.sampleRateHz(),
        columns.low(),
        columns.high(),
        columns.floor(),
        survey.bareGroove(),
        cuts);
  }
}
