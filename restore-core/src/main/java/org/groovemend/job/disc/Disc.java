package org.groovemend.job.disc;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.FilePath;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.DiscDrawing;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.report.DiscLayout;
import org.groovemend.report.DiscMarksBuilder;
import org.groovemend.report.Pictures;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.groovemend.rotation.TickGatherer;

/** Draws a restored side as its disc lies, from the ledger alone. */
public final class Disc {

  private Disc() {}

  /**
   * Tells the speed, draws, writes the picture whole or not at all. Reads the ledger only; memory
   * does not grow with its length.
   *
   * @throws RequestRefusedException if no speed was stated and the repairs do not tell it, or if
   *     the stated one is none; nothing is written then
   * @throws org.groovemend.delivery.OutputExistsException if the picture is there already and may
   *     not be replaced
   */
  public static DiscOutcome run(DiscRequest request) throws IOException {
    boolean stated = !Double.isNaN(request.rpm());
    if (stated
        && !(request.rpm() >= RotationSearch.SLOWEST_RPM
            && request.rpm() <= RotationSearch.FASTEST_RPM)) {
      throw new RequestRefusedException(
          String.format(
              Locale.ROOT,
              "%s turns a minute are no speed of a disc; give %.0f to %.0f, such as 33.333, 45 or 78.26",
              request.rpm(),
              RotationSearch.SLOWEST_RPM,
              RotationSearch.FASTEST_RPM));
    }
    Ledger ledger = Ledger.open(request.ledger());
    FileFacts original = ledger.header().original();
    Path picture = picture(request, original);
    int rate = original.format().sampleRateHz();
    if (original.frames() == 0) {
      throw new RequestRefusedException("the side has no samples; there is nothing to draw");
    }
    try (OutputSet outputs =
        OutputSet.open(
            FilePath.folder(picture),
            List.of(FilePath.name(picture)),
            request.replace(),
            List.of(request.ledger()))) {
      TickGatherer ticks = new TickGatherer(rate);
      ledger.forEachEdit(
          edit -> DiscDrawing.tick(ticks, edit.stage(), edit.start(), edit.statistic()));
      RotationFinding rotation =
          stated ? RotationSearch.at(ticks, request.rpm()) : RotationSearch.of(ticks);
      if (!stated && !rotation.found()) {
        throw new RequestRefusedException(notTold(rotation));
      }
      double rpm = stated ? request.rpm() : rotation.rpm();
      DiscLayout layout = DiscDrawing.layout(original.frames(), rate, rpm);
      DiscMarksBuilder marks = new DiscMarksBuilder(layout);
      ledger.forEachEdit(
          edit -> marks.add(DiscDrawing.kind(edit.stage()), edit.start(), edit.statistic()));
      byte[] png =
          Pictures.disc(
              DiscDrawing.map(
                  original.name(),
                  layout,
                  stated,
                  rotation,
                  DiscDrawing.bare(ledger.analyses(), original.frames())),
              marks);
      try (OutputStream out = outputs.create(FilePath.name(picture))) {
        out.write(png);
      }
      outputs.commit();
      return new DiscOutcome(
          picture,
          rpm,
          stated,
          rotation,
          DiscSpeed.nearest(rpm).disc(),
          layout.outerMm(),
          layout.innerMm(),
          original.frames(),
          rate);
    }
  }

  private static Path picture(DiscRequest request, FileFacts original) {
    Path file = request.picture();
    if (file == null) {
      file =
          request
              .ledger()
              .resolveSibling(
                  LedgerNames.of(Path.of(original.name()), original.format().containerBits())
                      .disc());
    }
    Path whole = file.toAbsolutePath();
    if (whole.getParent() == null || file.toString().isEmpty()) {
      throw new RequestRefusedException(file + " is not the name of a file to write");
    }
    return whole;
  }

  private static String notTold(RotationFinding rotation) {
    return "nothing was drawn: the speed of the turntable cannot be told from the "
        + String.format(Locale.ROOT, "%,d", rotation.places())
        + (rotation.places() == 1 ? " repaired place" : " repaired places")
        + " of this side, for nothing recurs once a turn ("
        + rotation.chanceInWords()
        + "). Say it with --rpm, such as 33.333, 45 or 78.26";
  }
}
