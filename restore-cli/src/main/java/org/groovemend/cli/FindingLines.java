package org.groovemend.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.job.inspect.SideInspection;
import org.groovemend.limits.Finding;
import org.groovemend.limits.Judgement;
import org.groovemend.limits.Place;

/** Findings as lines of text, the gravest first. */
final class FindingLines {
  private static final int MOST_PLACES = 5;

  private FindingLines() {}

  static void print(SideInspection found, boolean all, PrintWriter out) {
    out.println();
    line(
        out,
        "verdict",
        switch (found.verdict()) {
              case REDO -> "redo: the transfer should be made again, while the disc is at hand";
              case LOOK -> "look: a person should look or listen";
              default -> "fine";
            }
            + " (limits: "
            + found.limits()
            + ")");
    for (Judgement judgement : List.of(Judgement.REDO, Judgement.LOOK)) {
      of(found, judgement).forEach(finding -> whole(out, finding));
    }
    List<Finding> unknown = of(found, Judgement.UNKNOWN);
    List<Finding> fine = of(found, Judgement.FINE);
    if (all) {
      unknown.forEach(finding -> whole(out, finding));
      fine.forEach(finding -> whole(out, finding));
    } else {
      names(out, "unknown", unknown);
      names(out, "fine", fine);
    }
  }

  private static List<Finding> of(SideInspection found, Judgement judgement) {
    return found.findings().stream().filter(f -> f.verdict() == judgement).toList();
  }

  private static void names(PrintWriter out, String word, List<Finding> findings) {
    if (!findings.isEmpty()) {
      line(
          out,
          word,
          String.join("; ", findings.stream().map(FindingLines::value).toList())
              + (word.equals("unknown") ? " (--all says why)" : ""));
    }
  }

  private static String value(Finding finding) {
    if (finding.verdict() == Judgement.UNKNOWN) {
      return finding.label();
    }
    boolean number = !finding.unit().isEmpty() && !Double.isNaN(finding.value());
    return finding.label() + " " + finding.text() + (number ? " " + finding.unit() : "");
  }

  private static void whole(PrintWriter out, Finding finding) {
    line(
        out,
        finding.verdict().key(),
        value(finding)
            + (finding.limit().words().equals("none") ? "" : " (" + finding.limit().words() + ")")
            + ". "
            + finding.reason());
    List<String> places = new ArrayList<>();
    for (Place place : finding.places()) {
      if (places.size() < MOST_PLACES) {
        places.add(EditsCommand.time(place.fromSeconds()) + " " + place.what());
      }
    }
    if (!places.isEmpty()) {
      int more = finding.places().size() - places.size();
      line(out, "", "at " + String.join(", ", places) + (more > 0 ? " and more" : ""));
    }
  }

  private static void line(PrintWriter out, String label, String text) {
    out.println(String.format(Locale.ROOT, "  %-10s %s", label, text));
  }
}
