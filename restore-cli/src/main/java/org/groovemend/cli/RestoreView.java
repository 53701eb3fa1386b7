package org.groovemend.cli;

import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.groovemend.job.restore.RestoreOutcome;
import org.groovemend.signing.Fingerprint;

/** What came of a restoration, in words and for machines. */
final class RestoreView {

  private RestoreView() {}

  static Map<String, Object> asMap(RestoreOutcome outcome) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("side", outcome.original().name());
    map.put("original", outcome.original());
    map.put("restored", outcome.restored());
    map.put("removed", outcome.removed());
    Map<String, Object> files = new LinkedHashMap<>();
    files.put("restored", outcome.restoredFile().toString());
    files.put("ledger", outcome.ledgerFile().toString());
    files.put("removed", outcome.removedFile() == null ? null : outcome.removedFile().toString());
    files.put("report", outcome.reportFile().toString());
    map.put("files", files);
    map.put("fingerprint", Fingerprint.of(outcome.seal()).text());
    map.put("stagesApplied", outcome.stagesApplied());
    map.put("editsByStage", outcome.editsByStage());
    map.put("changedSamples", outcome.changedSamples());
    map.put("clippedSamples", outcome.clippedSamples());
    map.put("removedLevelDbfs", outcome.removedLevelDbfs());
    map.put("noiseFloor", outcome.comparison().noiseFloor());
    map.put("keptMusic", outcome.comparison().keptMusic());
    map.put("listening", outcome.comparison().listening());
    map.put("remarks", outcome.remarks());
    return map;
  }

  static void print(RestoreOutcome outcome, PrintWriter out) {
    out.println(outcome.original().name());
    outcome
        .editsByStage()
        .forEach(
            (stage, edits) ->
                out.println(
                    "  "
                        + stage
                        + ": "
                        + edits
                        + (edits == 1 ? " place" : " places")
                        + " repaired"));
    if (outcome.stagesApplied().contains("rumble")) {
      out.println("  rumble: taken out over the whole side; levels and headroom are in the report");
    }
    if (outcome.stagesApplied().contains("curve")) {
      out.println(
          "  curve: as asked, over the whole side; constants, peaks and reason are in the report");
    }
    if (outcome.stagesApplied().contains("mono")) {
      out.println(
          "  mono: the walls were aligned; delay, balance and weights are in report and ledger");
    }
    if (outcome.stagesApplied().contains("noise")) {
      out.println("  noise: surface noise reduced over the whole side");
    }
    if (outcome.changedSamples() == 0) {
      out.println("  no sample changed");
    } else {
      double share =
          100.0
              * outcome.changedSamples()
              / ((double) outcome.original().frames() * outcome.original().format().channels());
      out.println(
          String.format(
              Locale.ROOT,
              "  %s %% of the samples changed; what was removed measures %.1f dBFS",
              share < 0.01 ? "under 0.01" : String.format(Locale.ROOT, "%.2f", share),
              outcome.removedLevelDbfs()));
    }
    for (String remark : outcome.remarks()) {
      out.println("  note: " + remark);
    }
    out.println("  clean copy  " + outcome.restoredFile());
    if (outcome.removedFile() != null) {
      out.println("  removed     " + outcome.removedFile());
    }
    out.println("  ledger      " + outcome.ledgerFile());
    out.println("  report      " + outcome.reportFile());
    out.println("  fingerprint " + Fingerprint.of(outcome.seal()) + "  for the sleeve");
    out.flush();
  }
}
