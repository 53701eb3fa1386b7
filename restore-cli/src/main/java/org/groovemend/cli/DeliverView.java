package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.job.deliver.DeliverOutcome;
import org.groovemend.job.deliver.DeliverPlan;

/** A delivery, planned or made, in words and for machines. */
final class DeliverView {

  private DeliverView() {}

  static void print(List<DeliverPlan.Planned> plan, Path folder, boolean json, PrintWriter out) {
    if (json) {
      List<Map<String, Object>> files = new ArrayList<>();
      for (DeliverPlan.Planned one : plan) {
        Map<String, Object> map = new LinkedHashMap<>();
        map.put("transfer", one.transfer().toString());
        map.put("kind", one.wish().kind().key());
        map.put("name", one.name());
        map.put("frames", one.frames());
        map.put("format", one.format());
        files.add(map);
      }
      Map<String, Object> all = new LinkedHashMap<>();
      all.put("plan", 1);
      all.put("folder", folder.toString());
      all.put("files", files);
      Json.print(out, all);
      return;
    }
    out.println("Would be made in " + folder + ":");
    Path last = null;
    for (DeliverPlan.Planned one : plan) {
      if (!one.transfer().equals(last)) {
        out.println("of " + one.transfer());
        last = one.transfer();
      }
      out.println(
          "  "
              + one.name()
              + "  "
              + one.wish().kind().words()
              + (one.wish().bands() ? ", a file for each band" : "")
              + "; "
              + shape(one.format(), one.frames()));
    }
    out.println(
        "with a record of each copy and of all, and what the service copies are made through.");
    out.println("Nothing was written.");
    out.flush();
  }

  static void print(DeliverOutcome outcome, boolean json, PrintWriter out) {
    if (json) {
      Map<String, Object> all = new LinkedHashMap<>();
      all.put("deliver", 1);
      all.put("folder", outcome.folder().toString());
      all.put("record", outcome.record().toString());
      all.put("copies", outcome.copies());
      all.put("remarks", outcome.remarks());
      Json.print(out, all);
      return;
    }
    out.println(outcome.folder());
    for (DeliverOutcome.Copy copy : outcome.copies()) {
      double lufs = copy.level().loudness().integratedLufs();
      out.println(
          String.format(
              Locale.ROOT,
              "  %s  %s; %s, true peak %.1f dBTP%s",
              copy.file().name(),
              shape(copy.file().format(), copy.file().frames()),
              Double.isFinite(lufs)
                  ? String.format(Locale.ROOT, "%.1f LUFS", lufs)
                  : "too quiet to tell its loudness",
              copy.level().truePeakDbtp(),
              copy.gainDb() == 0
                  ? ""
                  : String.format(Locale.ROOT, ", gain %+.2f dB", copy.gainDb())));
    }
    for (String remark : outcome.remarks()) {
      out.println("  note: " + remark);
    }
    out.println("  record  " + outcome.record());
    out.flush();
  }

  private static String shape(AudioFormat format, long frames) {
    return String.format(
        Locale.ROOT,
        "%s, %d Hz, %d bits%s, %s",
        EditsCommand.time(format.seconds(frames)),
        format.sampleRateHz(),
        format.significantBits(),
        format.coding() == SampleCoding.FLOAT ? " float" : "",
        format.channels() == 1 ? "mono" : "two channels");
  }
}
