package org.groovemend.job.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audit.AuditOutcome;
import org.groovemend.audit.Difference;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Restore;
import org.groovemend.job.restore.RestoreRequest;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerDamagedException;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.VerificationException;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Audits of files that {@link Restore} wrote, whole and tampered with. */
class AuditTest {
  private static final AudioFormat FORMAT = AudioFormat.pcm(44_100, 2, 16);
  private static final int FRAMES = 100_000;
  private static final int BYTES = 4;

  @TempDir Path folder;

  private Path side(String name, long seed) throws IOException {
    Path file = folder.resolve(name);
    try (WavWriter writer =
        WavWriter.create(file, FORMAT, FRAMES, List.of(WavChunk.samples()), null)) {
      writer.write(worn(seed), 0, FRAMES);
    }
    return file;
  }

  /** Groove noise for 0.7 s, then two tones over it; a click every tenth of a second from there. */
  private static long[][] worn(long seed) {
    Random random = new Random(seed);
    long[][] words = new long[2][FRAMES];
    for (int c = 0; c < 2; c++) {
      double lag = 0;
      for (int i = 0; i < FRAMES; i++) {
        lag = 0.6 * lag + 0.002 * random.nextGaussian();
        double music = i < 31_000 ? 0 : 0.2 * Math.sin(i * 0.0627) + 0.1 * Math.sin(i * 0.1781);
        int at = i < 33_000 ? 99 : (i + 700 * c) % 4410;
        double click = at < 12 ? 0.6 * (at % 4 < 2 ? 1 : -1) * (1 - at / 12.0) : 0;
        words[c][i] = Math.round(32_767 * (music + lag + click));
      }
    }
    return words;
  }

  private Path restored(Path side, List<StageId> stages) throws IOException {
    Path out = folder.resolve("out");
    Restore.run(
        new RestoreRequest(
            side,
            out,
            Treatment.defaults().withStages(stages),
            new TimeRange(0, 0.6),
            true,
            "test",
            Instant.parse("2026-03-01T12:00:00Z")),
        Crew.alone(),
        Progress.SILENT,
        ReportWish.NONE);
    return out.resolve("side.restored.wav");
  }

  private static Audit.Result audit(Path original, Path derivative, Path ledger)
      throws IOException, VerificationException {
    return audit(original, derivative, ledger, null, false);
  }

  private static Audit.Result audit(
      Path original, Path derivative, Path ledger, Path page, boolean measure)
      throws IOException, VerificationException {
    return Audit.run(
        new Audit.Request(
            original, derivative, ledger, null, List.of(), measure, page, false, "test", "a day"),
        Progress.SILENT);
  }

  /** Flips the lowest bit of the word of a frame and channel; the samples end the file. */
  private static void tamper(Path file, long frame, int channel) throws IOException {
    try (RandomAccessFile bytes = new RandomAccessFile(file.toFile(), "rw")) {
      // from the end backwards: chunks before the samples may be of any length
      long data = bytes.length() - (long) FRAMES * BYTES;
      bytes.seek(data + frame * BYTES + channel * 2L);
      int was = bytes.read();
      bytes.seek(data + frame * BYTES + channel * 2L);
      bytes.write(was ^ 1);
    }
  }

  private Ledger ledger() throws IOException {
    return Ledger.open(folder.resolve("out/side.ledger.jsonl"));
  }

  @Test
  void repairsAreExplainedByTheirEdits() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    AuditOutcome o = audit(side, copy, null).outcome();
    assertEquals(AuditOutcome.Verdict.EXPLAINED, o.verdict(), o.summary());
    assertEquals(ledger().totals().changedSamples(), o.words().changed());
    assertEquals(ledger().totals().changedSamples(), o.words().explained());
    assertTrue(o.words().changed() > 100, o.summary());
    for (Difference d : o.differences()) {
      assertTrue(d.explanation().matches("edit \\d+ \\(clicks\\)"), d.toString());
    }
  }

  @Test
  void aTamperedWordOutsideAllEditsIsFoundExactly() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    long[] free = {50_000};
    ledger()
        .forEachEdit(
            e -> {
              if (e.start() <= free[0] + 20 && e.end() > free[0]) {
                free[0] = e.end() + 20;
              }
            });
    tamper(copy, free[0], 1);
    AuditOutcome o = audit(side, copy, null).outcome();
    assertEquals(AuditOutcome.Verdict.UNEXPLAINED, o.verdict());
    assertEquals(1, o.words().unexplained());
    assertEquals(0, o.words().alteredCount());
    Difference d = o.differences().get(0);
    assertEquals(Difference.UNEXPLAINED, d.explanation());
    assertEquals(free[0], d.from());
    assertEquals(free[0] + 1, d.to());
    assertEquals(1, d.channel());
    // one step of 16 bits
    assertEquals(20 * Math.log10(1 / 32_768.0), d.peakDbfs(), 1e-9);
  }

  @Test
  void aTamperedWordWithinAnEditNamesTheEdit() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    LedgerEdit[] third = new LedgerEdit[1];
    ledger()
        .forEachEdit(
            e -> {
              if (e.number() == 3) {
                third[0] = e;
              }
            });
    tamper(copy, third[0].start(), third[0].channel());
    AuditOutcome o = audit(side, copy, null).outcome();
    assertEquals(AuditOutcome.Verdict.UNEXPLAINED, o.verdict());
    assertTrue(o.words().alteredEdits().contains(3L), o.words().toString());
    assertTrue(
        o.differences().get(0).explanation().contains("edit 3 "),
        o.differences().get(0).toString());
  }

  @Test
  void whatAStageTookIsExplainedByTheRemovedFile() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS, StageId.NOISE));
    assertTrue(ledger().header().wholeSignal(), "the noise stage did not run");
    assertEquals(AuditOutcome.Verdict.EXPLAINED, audit(side, copy, null).outcome().verdict());
    // the digest of the whole copy stands in for a removed file that is lost
    Path removed = folder.resolve("out/side.removed.flac");
    Path away = folder.resolve("away.flac");
    Files.move(removed, away);
    Audit.Result without = audit(side, copy, null);
    assertEquals(AuditOutcome.Verdict.EXPLAINED, without.outcome().verdict());
    assertEquals(1, without.notices().size(), without.notices().toString());
    Files.move(away, removed);
    tamper(copy, 77_777, 0);
    AuditOutcome o = audit(side, copy, null).outcome();
    assertEquals(AuditOutcome.Verdict.UNEXPLAINED, o.verdict());
    assertEquals(1, o.words().unexplained());
    assertEquals(77_777, o.differences().get(0).from());
    Files.move(removed, away);
    assertThrows(VerificationException.class, () -> audit(side, copy, null));
  }

  @Test
  void identicalIsSaidOfFilesAndOfSamples() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path same = Files.copy(side, folder.resolve("same.wav"));
    assertEquals(AuditOutcome.Verdict.SAME_FILE, audit(side, same, null).outcome().verdict());
    byte[] bytes = Files.readAllBytes(side);
    byte[] longer = java.util.Arrays.copyOf(bytes, bytes.length + 10);
    System.arraycopy("junk\2\0\0\0ab".getBytes("ISO-8859-1"), 0, longer, bytes.length, 10);
    Path tagged = Files.write(folder.resolve("tagged.wav"), longer);
    AuditOutcome o = audit(side, tagged, null).outcome();
    assertEquals(AuditOutcome.Verdict.SAME_SAMPLES, o.verdict());
    assertTrue(o.summary().contains("The files are not"), o.summary());
  }

  @Test
  void ledgersOfOtherFilesAndDamagedOnesAreRefused() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    Path ledger = folder.resolve("out/side.ledger.jsonl");
    Path other = side("other.wav", 6);
    VerificationException e =
        assertThrows(VerificationException.class, () -> audit(other, copy, ledger));
    assertTrue(e.getMessage().contains("another original"), e.getMessage());
    byte[] bytes = Files.readAllBytes(ledger);
    bytes[bytes.length / 2] ^= 1;
    Files.write(ledger, bytes);
    assertThrows(LedgerDamagedException.class, () -> audit(side, copy, null));
  }

  @Test
  void aDamagedLedgerOfAnotherCopyStopsNothing() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    // its name fits too: what undo gives a copy and its ledger
    Path undone = Files.copy(copy, copy.resolveSibling("side.undone.restored.wav"));
    Path ledger = folder.resolve("out/side.ledger.jsonl");
    Path longer = Files.copy(ledger, ledger.resolveSibling("side.undone.ledger.jsonl"));
    byte[] bytes = Files.readAllBytes(ledger);
    bytes[bytes.length / 2] ^= 1;
    Files.write(ledger, bytes);
    Audit.Result result = audit(side, undone, null);
    assertEquals(AuditOutcome.Verdict.EXPLAINED, result.outcome().verdict());
    assertEquals(List.of(), result.notices());
    Files.write(longer, bytes);
    LedgerDamagedException e =
        assertThrows(LedgerDamagedException.class, () -> audit(side, undone, null));
    assertTrue(e.getMessage().contains("side.undone.ledger.jsonl: line "), e.getMessage());
  }

  @Test
  void anAlteredAndRenamedCopyIsToldOfTheLedgerBesideIt()
      throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    Path renamed = Files.move(copy, copy.resolveSibling("final.wav"));
    assertEquals(AuditOutcome.Verdict.EXPLAINED, audit(side, renamed, null).outcome().verdict());
    tamper(renamed, 50_000, 1);
    Audit.Result result = audit(side, renamed, null);
    assertEquals(AuditOutcome.Verdict.MEASURED, result.outcome().verdict());
    assertTrue(
        result.notices().toString().contains("--ledger side.ledger.jsonl"),
        result.notices().toString());
  }

  @Test
  void ofManyLedgersNotAllOfWhichAreOpenedItIsSaid() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    Path other = Files.copy(side, folder.resolve("out/zz.wav"));
    Path ledger = folder.resolve("out/side.ledger.jsonl");
    for (int i = 0; i < 59; i++) {
      Files.copy(ledger, folder.resolve("out/s" + i + ".ledger.jsonl"));
    }
    tamper(other, 50_000, 1);
    List<String> notices = audit(side, other, null).notices();
    assertTrue(notices.toString().contains("50 of the 60 ledgers"), notices.toString());
    assertEquals(4, notices.size(), notices.toString());
    // the one whose name fits is among those that are opened
    assertEquals(AuditOutcome.Verdict.EXPLAINED, audit(side, copy, null).outcome().verdict());
  }

  @Test
  void measuredRepairsLieInTheEditsAndThePageIsWritten() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path copy = restored(side, List.of(StageId.CLICKS));
    Path page = folder.resolve("audit.html");
    AuditOutcome o = audit(side, copy, null, page, true).outcome();
    assertEquals(AuditOutcome.Verdict.MEASURED, o.verdict());
    boolean[][] edited = new boolean[2][FRAMES];
    ledger()
        .forEachEdit(
            e -> {
              for (long i = e.start(); i < e.end(); i++) {
                edited[e.channel()][(int) i] = true;
              }
            });
    assertTrue(o.differenceCount() > 10, o.summary());
    long outside = 0;
    for (Difference d : o.differences()) {
      assertTrue(edited[d.channel()][(int) d.from()], d.toString());
      for (long i = d.from(); i < d.to(); i++) {
        outside += edited[d.channel()][(int) i] ? 0 : 1;
      }
    }
    // ranges less than a millisecond apart are told as one
    assertTrue(outside < 0.002 * 2 * FRAMES, outside + " frames outside the edits");
    String html = Files.readString(page);
    assertTrue(html.contains("What became of the recording"), html.substring(0, 300));
  }

  @Test
  void anotherRecordingIsRefusedInOneSentence() throws IOException, VerificationException {
    Path side = side("side.wav", 5);
    Path other = folder.resolve("noise.wav");
    Random random = new Random(77);
    long[][] words = new long[2][FRAMES];
    for (long[] channel : words) {
      for (int i = 0; i < FRAMES; i++) {
        channel[i] = random.nextInt(4000) - 2000;
      }
    }
    try (WavWriter writer =
        WavWriter.create(other, FORMAT, FRAMES, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, FRAMES);
    }
    InputRejectedException e =
        assertThrows(InputRejectedException.class, () -> audit(side, other, null));
    assertTrue(e.getMessage().contains("nothing of it is found in side.wav"), e.getMessage());
  }
}
