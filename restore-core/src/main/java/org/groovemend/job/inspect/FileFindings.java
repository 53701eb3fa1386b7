package org.groovemend.job.inspect;

import java.io.IOException;
import java.nio.charset.MalformedInputException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.FilePath;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.limits.Findings;
import org.groovemend.limits.Measure;
import org.groovemend.limits.Place;
import org.groovemend.measure.SideLevels;
import org.groovemend.transfer.Completeness;

/** Findings on the file as such: format, checksum, metadata, whether it holds the whole side. */
final class FileFindings {
  private static final String PRESENT = "present";
  private static final String ABSENT = "absent";
  private static final String SIDECAR = ".sha256";
  private static final int MOST_SIDECAR_BYTES = 4096;

  private FileFindings() {}

  static void add(Findings to, SideReader side, SideListening heard) throws IOException {
    AudioFormat format = side.format();
    to.number(Measure.SAMPLE_RATE, format.sampleRateHz(), 1, "As the header says.");
    to.number(Measure.WORD_LENGTH, format.significantBits(), 1, "As the header says.");
    fixity(to, side, heard);
    metadata(to, side);
    completeness(to, format, heard);
    silence(to, format, side.frames(), heard.survey().levels());
  }

  private static void fixity(Findings to, SideReader side, SideListening heard) throws IOException {
    String name = FilePath.name(side.path()) + SIDECAR;
    Path sidecar = side.path().resolveSibling(name);
    if (!Files.isRegularFile(sidecar) || Files.size(sidecar) > MOST_SIDECAR_BYTES) {
      to.unknown(
          Measure.FIXITY,
          "There is no "
              + name
              + " beside it to compare with; the SHA-256 of the file and of its sound are told, keep them.");
      return;
    }
    String text;
    try {
      text = Files.readString(sidecar, StandardCharsets.UTF_8).strip();
    } catch (MalformedInputException e) {
      text = "";
    }
    String told = text.split("\\s")[0].toLowerCase(Locale.ROOT);
    if (!told.matches("[0-9a-f]{64}")) {
      to.unknown(Measure.FIXITY, name + " does not begin with a SHA-256.");
      return;
    }
    boolean same = told.equals(heard.survey().facts().sha256());
    to.word(
        Measure.FIXITY,
        same ? "unchanged" : "differs",
        1,
        (same ? "The file has the SHA-256 of " : "The file has not the SHA-256 of ") + name + ".",
        List.of());
  }

  private static void metadata(Findings to, SideReader side) throws IOException {
    if (!side.container().matches("(WAV|RF64|BW64).*")) {
      to.unknown(
          Measure.METADATA, "A " + side.container() + " file has no broadcast extension to read.");
      return;
    }
    List<String> empty = null;
    for (WavChunk chunk : side.wavChunks()) {
      if (chunk.id().equals(BroadcastExtension.CHUNK_ID)) {
        empty = new ArrayList<>();
        BroadcastExtension bext = BroadcastExtension.parse(content(side, chunk));
        blank(empty, "description", bext.description());
        blank(empty, "originator", bext.originator());
        blank(empty, "date", bext.originationDate());
        blank(empty, "coding history", bext.codingHistory());
      }
    }
    boolean list = side.parts().stream().anyMatch(part -> part.startsWith("LIST"));
    String also = list ? " It has a LIST chunk." : " It has no LIST chunk.";
    if (empty == null) {
      to.word(Measure.METADATA, ABSENT, 1, "There is no bext chunk." + also, List.of());
    } else if (empty.isEmpty()) {
      to.word(Measure.METADATA, "complete", 1, "No field asked for is empty." + also, List.of());
    } else {
      to.word(
          Measure.METADATA,
          "incomplete",
          1,
          "Empty in the bext chunk: " + String.join(", ", empty) + "." + also,
          List.of());
    }
  }

  private static void blank(List<String> empty, String name, String value) {
    if (value == null || value.isBlank()) {
      empty.add(name);
    }
  }

  private static byte[] content(SideReader side, WavChunk chunk) throws IOException {
    if (chunk.content() != null) {
      return chunk.content();
    }
    try (var in = Files.newInputStream(side.path())) {
      in.skipNBytes(chunk.fileOffset());
      return in.readNBytes((int) Math.min(chunk.size(), 1 << 20));
    }
  }

  private static void completeness(Findings to, AudioFormat format, SideListening heard) {
    LeadInFinding found = heard.survey().leadIn();
    Completeness whole = Completeness.of(heard.survey().track(), found);
    boolean groove = whole.leadIn() || whole.runOut();
    int rate = format.sampleRateHz();
    end(to, Measure.NEEDLE_DROP, groove, whole.needleDropFrame(), "begins", "goes down", rate);
    if (whole.leadIn()) {
      to.word(
          Measure.LEAD_IN,
          PRESENT,
          found.confidence(),
          "Bare groove before the music.",
          List.of(Place.of(found.startFrame(), found.endFrame(), rate, -1, "bare groove")));
    } else {
      to.word(
          Measure.LEAD_IN,
          ABSENT,
          Double.NaN,
          "None was found: " + found.reason() + ".",
          List.of());
    }
    LeadInFinding.RunOut out = found.runOut();
    if (out != null) {
      to.word(
          Measure.RUN_OUT,
          PRESENT,
          out.confidence(),
          "Bare groove behind the music.",
          List.of(Place.of(out.startFrame(), out.endFrame(), rate, -1, "bare groove")));
    } else {
      to.word(Measure.RUN_OUT, ABSENT, Double.NaN, "None was found behind the music.", List.of());
    }
    end(to, Measure.LIFT, groove, whole.liftFrame(), "ends", "is lifted", rate);
  }

  private static void end(
      Findings to,
      Measure measure,
      boolean groove,
      long frame,
      String verb,
      String does,
      int rate) {
    if (!groove) {
      to.unknown(measure, "Without bare groove to compare with it cannot be told.");
    } else if (frame >= 0) {
      to.word(
          measure,
          PRESENT,
          Double.NaN,
          "The file "
              + verb
              + " at least 10 dB softer than the bare groove; the stylus "
              + does
              + " there.",
          List.of(Place.of(frame, frame, rate, -1, "the stylus " + does)));
    } else {
      to.word(
          measure,
          ABSENT,
          Double.NaN,
          "The file " + verb + " with the stylus in the groove.",
          List.of());
    }
  }

  private static void silence(Findings to, AudioFormat format, long frames, SideLevels levels) {
    if (levels.silent()) {
      to.number(Measure.SILENCE_INSIDE, format.seconds(frames), 1, "Every sample is zero.");
      to.number(Measure.SILENCE_AT_ENDS, format.seconds(frames), 1, "Every sample is zero.");
      return;
    }
    to.number(
        Measure.SILENCE_INSIDE,
        format.seconds(levels.longestInnerSilenceFrames()),
        1,
        "A groove is never silent.",
        levels.longestInnerSilenceFrames() == 0
            ? List.of()
            : List.of(
                Place.of(
                    levels.longestInnerSilenceStart(),
                    levels.longestInnerSilenceStart() + levels.longestInnerSilenceFrames(),
                    format.sampleRateHz(),
                    -1,
                    "zeros")));
    to.number(
        Measure.SILENCE_AT_ENDS,
        format.seconds(Math.max(levels.leadingSilenceFrames(), levels.trailingSilenceFrames())),
        1,
        "Even a chain with its stylus up is not silent; zeros were put there, or a gate was shut.");
  }
}
