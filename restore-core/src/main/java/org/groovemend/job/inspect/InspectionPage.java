package org.groovemend.job.inspect;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SampleCoding;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.restore.SideFindings;
import org.groovemend.ledger.FileFacts;
import org.groovemend.limits.Finding;
import org.groovemend.limits.Judgement;
import org.groovemend.limits.Place;
import org.groovemend.report.Fact;
import org.groovemend.report.InspectionSheet;
import org.groovemend.report.Pictures;

/** The page of an inspection and its pictures as one PNG file. */
public final class InspectionPage {
  private static final int MOST_PLACES = 12;

  private InspectionPage() {}

  /**
   * Writes both files, whole or not at all.
   *
   * @param found of a request that asked for pictures
   * @param side the file that was inspected
   * @param page the HTML file; the PNG file lies beside it, with the same name but its ending
   * @param replace whether they may replace files
   * @param program with its version
   * @throws org.groovemend.delivery.OutputExistsException if one exists and may not be replaced
   */
  public static void write(
      Inspect.Outcome found, Path side, Path page, boolean replace, String program)
      throws IOException {
    write(found, side, page, replace, program, Map.of());
  }

  /**
   * The same, and files that appear together with them.
   *
   * @param more names to contents, in the folder of the page
   */
  public static void write(
      Inspect.Outcome found,
      Path side,
      Path page,
      boolean replace,
      String program,
      Map<String, byte[]> more)
      throws IOException {
    String html = FilePath.name(page);
    String png = html.replaceFirst("\\.html$", "") + ".png";
    InspectionFigures figures =
        new InspectionFigures(found.listening().heard(), found.side().file().name());
    StringBuilder text = new StringBuilder();
    sheet(found.side(), figures, program).write(text);
    List<String> names = new ArrayList<>(List.of(html, png));
    names.addAll(more.keySet());
    try (OutputSet outputs = OutputSet.open(FilePath.folder(page), names, replace, List.of(side))) {
      try (OutputStream out = outputs.create(html)) {
        out.write(text.toString().getBytes(StandardCharsets.UTF_8));
      }
      try (OutputStream out = outputs.create(png)) {
        out.write(Pictures.stacked(figures.figures()));
      }
      for (Map.Entry<String, byte[]> each : more.entrySet()) {
        try (OutputStream out = outputs.create(each.getKey())) {
          out.write(each.getValue());
        }
      }
      outputs.commit();
    }
  }

  private static InspectionSheet sheet(
      SideInspection side, InspectionFigures figures, String program) {
    List<InspectionSheet.Row> rows = new ArrayList<>();
    for (Finding finding : side.findings()) {
      rows.add(row(finding));
    }
    return new InspectionSheet(
        side.file().name(),
        side.verdict().key(),
        summary(side),
        program,
        facts(side),
        rows,
        figures.figures(),
        figures.notShown(),
        side.limits());
  }

  private static InspectionSheet.Row row(Finding finding) {
    boolean number = !Double.isNaN(finding.value()) && !finding.unit().isEmpty();
    String places =
        finding.places().stream()
            .limit(MOST_PLACES)
            .map(InspectionPage::place)
            .collect(Collectors.joining("; "));
    int more = finding.places().size() - MOST_PLACES;
    return new InspectionSheet.Row(
        finding.verdict().key(),
        finding.label(),
        finding.text() + (number ? " " + finding.unit() : ""),
        finding.limit().words().equals("none")
            ? "no limit"
            : finding.limit().words() + " (" + finding.limit().source() + ")",
        Double.isNaN(finding.confidence())
            ? ""
            : String.format(Locale.ROOT, "Confidence %.0f %%.", 100 * finding.confidence()),
        finding.reason(),
        places.isEmpty() ? "" : "At " + places + (more > 0 ? "; and more" : "") + ".");
  }

  private static String place(Place place) {
    String wall = place.channel() < 0 ? "" : " " + SideFindings.wall(place.channel(), 2);
    return String.format(
        Locale.ROOT,
        "%d:%06.3f%s %s",
        (long) (place.fromSeconds() / 60),
        place.fromSeconds() % 60,
        wall,
        place.what());
  }

  private static String summary(SideInspection side) {
    long redo = count(side, Judgement.REDO);
    long look = count(side, Judgement.LOOK);
    String unknown = " " + count(side, Judgement.UNKNOWN) + " measures could not be told.";
    return switch (side.verdict()) {
      case REDO ->
          "This transfer should be made again, while the disc is at hand: "
              + redo
              + (redo == 1 ? " finding" : " findings")
              + " beyond all limits"
              + (look == 0 ? "." : ", " + look + " more to look at.")
              + unknown;
      case LOOK ->
          "A person should look: "
              + look
              + (look == 1 ? " finding" : " findings")
              + " outside the limits."
              + unknown;
      default -> "Nothing is outside the limits." + unknown;
    };
  }

  private static long count(SideInspection side, Judgement verdict) {
    return side.findings().stream().filter(f -> f.verdict() == verdict).count();
  }

  private static List<Fact> facts(SideInspection side) {
    FileFacts file = side.file();
    AudioFormat format = file.format();
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of("Container", file.container(), ""));
    facts.add(
        Fact.of(
            "Samples",
            format.sampleRateHz()
                + " Hz, "
                + format.containerBits()
                + (format.coding() == SampleCoding.PCM ? "-bit PCM, " : "-bit float, ")
                + (format.channels() == 1 ? "mono" : "two channels"),
            ""));
    facts.add(
        new Fact(
            "Length",
            String.format(
                Locale.ROOT, "%d:%06.3f", (long) (side.seconds() / 60), side.seconds() % 60),
            "min:s",
            file.frames() + " frames."));
    facts.add(Fact.of("Parts", String.join(", ", side.parts()), ""));
    facts.add(Fact.of("SHA-256 of the file", file.sha256(), ""));
    facts.add(Fact.of("SHA-256 of the sound", file.samplesSha256(), ""));
    for (String notice : side.notices()) {
      facts.add(new Fact("Note", "", "", notice));
    }
    return facts;
  }
}
