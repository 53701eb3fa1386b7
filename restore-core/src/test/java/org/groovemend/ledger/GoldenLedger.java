package org.groovemend.ledger;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.Words;
import org.groovemend.decisions.Decision;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.LedgerName;
import org.groovemend.decisions.Verdict;

/**
 * Wrote fixtures/ledger/v1 once, before version 1 was released, and v2 before version 2 was; what
 * lies there is never edited again. Two tiny invented sides with real WAV files: "repairs" (mono,
 * 16 bits, three edits) and "whole" (stereo, 24 bits, every sample changed). In version 2 "repairs"
 * has a child, "side.undo-1", of which the second edit was taken back.
 */
final class GoldenLedger {

  private static final int FRAMES = 24;

  private GoldenLedger() {}

  /** Writes both folders below the one given. */
  public static void main(String[] folder) throws IOException {
    write(Path.of(folder[0], "repairs"), AudioFormat.pcm(8_000, 1, 16), false);
    writeChild(Path.of(folder[0], "repairs"));
    write(Path.of(folder[0], "whole"), AudioFormat.pcm(8_000, 2, 24), true);
  }

  /**
   * @param name with its folder, such as "v1/repairs/side.wav"
   */
  static byte[] bytes(String name) {
    try (InputStream in = GoldenLedger.class.getResourceAsStream("/fixtures/ledger/" + name)) {
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static void write(Path folder, AudioFormat format, boolean whole) throws IOException {
    Files.createDirectories(folder);
    long[][] original = new long[format.channels()][FRAMES];
    long[][] restored = new long[format.channels()][FRAMES];
    long[][] removed = new long[format.channels()][FRAMES];
    for (int c = 0; c < format.channels(); c++) {
      for (int i = 0; i < FRAMES; i++) {
        original[c][i] = 100L * (i % 7) - 250L + 17L * c;
        restored[c][i] = original[c][i] - (whole ? 1 + i % 3 : 0);
      }
    }
    original[0][5] = 20_000;
    original[0][6] = -32_768;
    original[0][15] = 12_345;
    long full = 1L << (format.containerBits() - 1);
    restored[format.channels() - 1][23] = full - 1;
    original[format.channels() - 1][23] = -full;
    List<LedgerEdit> edits = new ArrayList<>();
    addEdit(edits, format, 0, 5, 7, original, restored);
    addEdit(edits, format, 0, 15, 16, original, restored);
    addEdit(edits, format, format.channels() - 1, 23, 24, original, restored);
    long changed = 0;
    for (int c = 0; c < format.channels(); c++) {
      for (int i = 0; i < FRAMES; i++) {
        removed[c][i] = Words.minus(original[c][i], restored[c][i], format.containerBits());
        changed += removed[c][i] == 0 ? 0 : 1;
      }
    }
    byte[] head = head(format, true);
    byte[] tail = "LIST\4\0\0\0INFO".getBytes(StandardCharsets.US_ASCII);
    byte[] originalFile = file(head, format, original, tail);
    byte[] restoredFile = file(head, format, restored, tail);
    byte[] removedFile = file(head(format, false), format, removed, new byte[0]);
    Files.write(folder.resolve("side.wav"), originalFile);
    Files.write(folder.resolve("side.restored.wav"), restoredFile);
    if (whole) {
      Files.write(folder.resolve("side.removed.wav"), removedFile);
    }
    List<AppliedStage> stages = new ArrayList<>();
    stages.add(new AppliedStage("clicks", AppliedStage.REPAIR));
    if (whole) {
      stages.add(new AppliedStage("noise", AppliedStage.SIGNAL));
    }
    Map<String, Object> clicks = new LinkedHashMap<>();
    clicks.put("falseAlarmsPerMinute", 1.0);
    clicks.put("modelOrder", 2);
    try (LedgerWriter writer =
        new LedgerWriter(Files.newOutputStream(folder.resolve("side.ledger.jsonl")))) {
      writer.header(
          new LedgerHeader(
              "groovemend",
              "0.1.0",
              "2026-03-01T12:00:00Z",
              new Environment("17.0.1", "an invented vendor", "an invented system", "amd64"),
              facts("side.wav", format, original, originalFile),
              "flat",
              Map.of("clicks", clicks),
              stages,
              whole,
              new Dither("tpdf", 20_260_301)));
      writer.container(new LayoutPiece.Bytes(head));
      writer.container(new LayoutPiece.PcmFrames(0, FRAMES, false));
      writer.container(new LayoutPiece.Bytes(tail));
      writer.analysis("side", new TreeMap<>(Map.of("peakDbfs", -0.5, "leadIn", "none found")));
      for (LedgerEdit edit : edits) {
        writer.edit(edit);
      }
      Map<String, Long> byStage = whole ? Map.of("clicks", 3L, "noise", 0L) : Map.of("clicks", 3L);
      writer.totals(
          new LedgerTotals(
              3,
              byStage,
              changed,
              1,
              facts("side.restored.wav", format, restored, restoredFile),
              whole ? facts("side.removed.wav", format, removed, removedFile) : null,
              List.of("1 sample was limited to full scale.")));
      writer.seal();
    }
  }

  /** Of what {@link #write} wrote with repairs alone: the copy without the second edit. */
  static void writeChild(Path folder) throws IOException {
    Ledger parent = Ledger.open(folder.resolve("side.ledger.jsonl"));
    LedgerHeader header = parent.header();
    AudioFormat format = header.original().format();
    byte[] file = Files.readAllBytes(folder.resolve("side.restored.wav"));
    int width = format.bytesPerSample();
    List<LedgerEdit> kept = new ArrayList<>();
    parent.forEachEdit(
        edit -> {
          if (edit.number() == 2) {
            System.arraycopy(
                edit.original(), 0, file, 44 + width * (int) edit.start(), edit.original().length);
          } else {
            kept.add(edit);
          }
        });
    Files.write(folder.resolve("side.undo-1.restored.wav"), file);
    byte[] decisions =
        DecisionDocument.of(
                DecisionFile.empty(LedgerName.of(parent), "an invented reviewer")
                    .with(
                        new Decision(
                            2, Verdict.UNDO, "that was a castanet", "2026-03-02T12:00:00Z")))
            .bytes();
    Files.write(folder.resolve("side.undo-1.decisions.json"), decisions);
    long[][] words = new long[1][FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      words[0][i] = Words.getLittleEndian(file, 44 + width * i, width);
    }
    try (LedgerWriter writer =
        new LedgerWriter(Files.newOutputStream(folder.resolve("side.undo-1.ledger.jsonl")))) {
      writer.header(
          new LedgerHeader(
              header.tool(),
              header.toolVersion(),
              "2026-03-02T12:00:01Z",
              header.environment(),
              header.original(),
              header.capturedThrough(),
              header.treatment(),
              header.stages(),
              false,
              header.dither(),
              new LedgerParent(
                  "side.ledger.jsonl",
                  parent.seal(),
                  "side.undo-1.decisions.json",
                  Sha256.of(decisions),
                  3,
                  1,
                  1)));
      parent.describeOriginal(writer::container);
      for (AnalysisRecord analysis : parent.analyses()) {
        writer.analysis(analysis.name(), analysis.result());
      }
      for (LedgerEdit edit : kept) {
        writer.edit(edit.withNumberAndAfter(kept.indexOf(edit) + 1, edit.after()));
      }
      writer.totals(
          new LedgerTotals(
              2,
              Map.of("clicks", 2L),
              parent.totals().changedSamples() - 1,
              1,
              facts("side.undo-1.restored.wav", format, words, file),
              null,
              List.of("1 sample was limited to full scale.")));
      writer.seal();
    }
  }

  private static void addEdit(
      List<LedgerEdit> edits,
      AudioFormat format,
      int channel,
      int start,
      int end,
      long[][] original,
      long[][] restored) {
    RangeWords words = new RangeWords(format);
    boolean last = start == FRAMES - 1;
    edits.add(
        new LedgerEdit(
            edits.size() + 1,
            "clicks",
            channel,
            start,
            end,
            12.5,
            4.25,
            "lsar",
            2,
            start,
            end - start,
            last ? Double.NaN : -61.5,
            words.digest(original[channel], start, end - start),
            words.digest(restored[channel], start, end - start),
            words.bytes(original[channel], start, end - start)));
  }

  private static FileFacts facts(String name, AudioFormat format, long[][] words, byte[] file) {
    return TreatedSide.facts(name, format, words, file);
  }

  private static byte[] head(AudioFormat format, boolean withTail) {
    int data = FRAMES * format.bytesPerFrame();
    ByteBuffer head = ByteBuffer.allocate(44).order(ByteOrder.LITTLE_ENDIAN);
    head.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + data + (withTail ? 12 : 0));
    head.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    head.putShort((short) 1).putShort((short) format.channels()).putInt(format.sampleRateHz());
    head.putInt(format.sampleRateHz() * format.bytesPerFrame());
    head.putShort((short) format.bytesPerFrame()).putShort((short) format.containerBits());
    head.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(data);
    return head.array();
  }

  private static byte[] file(byte[] head, AudioFormat format, long[][] words, byte[] tail)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(head);
    out.write(TreatedSide.bare(format, words));
    out.write(tail);
    return out.toByteArray();
  }
}
