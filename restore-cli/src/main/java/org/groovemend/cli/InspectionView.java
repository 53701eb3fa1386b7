package org.groovemend.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.job.inspect.SideInspection;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.measure.ChannelLevels;
import org.groovemend.measure.Loudness;
import org.groovemend.playback.CaptureCurve;

/** An inspection as text and as JSON. */
final class InspectionView {

  private InspectionView() {}

  /** As docs/reference/inspection.schema.json describes it. */
  static JsonNode json(SideInspection found) {
    ObjectNode side = (ObjectNode) Json.tree(found);
    side.put("verdict", found.verdict().key());
    for (int i = 0; i < found.findings().size(); i++) {
      ((ObjectNode) side.get("findings").get(i))
          .put("verdict", found.findings().get(i).verdict().key());
    }
    return side;
  }

  static void print(SideInspection found, CaptureCurve captured, boolean all, PrintWriter out) {
    var format = found.file().format();
    out.println(found.file().name());
    line(out, "container", found.file().container());
    line(
        out,
        "samples",
        format.sampleRateHz()
            + " Hz, "
            + format.containerBits()
            + (format.coding() == SampleCoding.PCM ? "-bit PCM" : "-bit float")
            + ", "
            + (format.channels() == 1 ? "mono" : "two channels"));
    line(
        out,
        "length",
        EditsCommand.time(found.seconds()) + " (" + found.file().frames() + " frames)");
    line(out, "parts", String.join(", ", found.parts()));
    line(out, "SHA-256", found.file().sha256());
    if (found.levels().silent()) {
      line(out, "bits used", "none: every sample is zero, the side is digital silence");
    } else if (found.levels().usedBits() < format.significantBits()) {
      line(
          out,
          "bits used",
          found.levels().usedBits()
              + " of "
              + format.significantBits()
              + ": the sound was once kept in fewer bits than the file has");
    }
    List<ChannelLevels> channels = found.levels().channels();
    for (int c = 0; c < channels.size(); c++) {
      ChannelLevels level = channels.get(c);
      line(
          out,
          AudioFormat.channelName(c, channels.size()),
          String.format(
              Locale.ROOT,
              "peak %s dBFS, RMS %s dBFS, offset %.4f %% of full scale, %s",
              db(level.peakDbfs()),
              db(level.rmsDbfs()),
              // adding 0 turns a negative zero into a positive one
              Math.rint(1e6 * level.dcOffset()) / 1e4 + 0.0,
              level.clippedRuns() == 0
                  ? "no clipped runs"
                  : level.clippedRuns()
                      + " clipped runs, the longest "
                      + level.longestClippedRun()
                      + " samples, the first at "
                      + EditsCommand.time(format.seconds(level.firstClippedFrame()))));
    }
    Loudness loudness = found.programme().loudness();
    line(
        out,
        "loudness",
        Double.isInfinite(loudness.integratedLufs())
            ? "none: the side is too short or too quiet to measure"
            : String.format(
                Locale.ROOT,
                "%.1f LUFS integrated, range %.1f LU, loudest 3 s %s, loudest 400 ms %s LUFS",
                loudness.integratedLufs(),
                loudness.rangeLu(),
                db(loudness.mostShortTermLufs()),
                db(loudness.mostMomentaryLufs())));
    line(
        out,
        "true peak",
        db(found.programme().truePeakDbtp()) + " dBTP, clicks as they are included");
    if (found.levels().longestSilenceFrames() > format.sampleRateHz()) {
      line(
          out,
          "silence",
          String.format(
              Locale.ROOT,
              "%.2f s of digital zero from %s; a groove is never silent",
              format.seconds(found.levels().longestSilenceFrames()),
              EditsCommand.time(format.seconds(found.levels().longestSilenceStart()))));
    }
    if (found.leadIn().found()) {
      line(
          out,
          "lead-in",
          String.format(
              Locale.ROOT,
              "%.2f to %.2f s, confidence %.0f %%; groove noise %s dBFS",
              format.seconds(found.leadIn().startFrame()),
              format.seconds(found.leadIn().endFrame()),
              100 * found.leadIn().confidence(),
              db(found.noiseFloorDbfs())));
    } else {
      line(out, "lead-in", "not found: " + found.leadIn().reason());
    }
    LeadInFinding.RunOut runOut = found.leadIn().runOut();
    if (runOut != null) {
      line(
          out,
          "run-out",
          String.format(
              Locale.ROOT,
              "%.2f to %.2f s, confidence %.0f %%; groove noise %s dBFS",
              format.seconds(runOut.startFrame()),
              format.seconds(runOut.endFrame()),
              100 * runOut.confidence(),
              db(runOut.levelDbfs())));
    }
    CaptureCurve curve = found.capture() == null ? captured : found.capture().curve();
    if (found.capture() != null) {
      line(out, "captured", found.capture().inWords());
    }
    line(
        out,
        "clicks",
        String.format(
            Locale.ROOT,
            "%.0f a minute that restore would repair, %s (heard: %s of the side)",
            found.clicksPerMinute(),
            !curve.isKnown() ? "if no playback curve was in the chain" : "captured " + curve.key(),
            EditsCommand.time(found.clickSampleSeconds())));
    for (String notice : found.notices()) {
      line(out, "note", notice);
    }
    FindingLines.print(found, all, out);
    out.flush();
  }

  private static String db(double value) {
    return Double.isInfinite(value) ? "-inf" : String.format(Locale.ROOT, "%.1f", value);
  }

  private static void line(PrintWriter out, String label, String text) {
    out.println(String.format(Locale.ROOT, "  %-10s %s", label, text));
  }
}
