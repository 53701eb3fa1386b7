package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The curve's options of restore. */
class CurveOptionsTest {

  @TempDir private Path dir;
  private Path side;

  @BeforeEach
  void write() throws Exception {
    side = dir.resolve("side.wav");
    SmallSide.write(side, 3);
  }

  private CommandRun restore(String... more) {
    return CommandRun.of(
        Stream.concat(
                Stream.of("restore", side, "--out", dir.resolve("out"), "--no-clips"),
                Stream.of(more))
            .toArray());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--stages curve --curve riia|did you mean \"riaa\"",
        "--stages curve|no curve was named",
        "--curve riaa|not among those to apply",
        "--stages curve --curve nab --captured riaa|--undo-curve riaa",
        "--stages curve --undo-curve riaa --captured flat|no curve to undo",
        "--stages curve --curve nab --speeds 78|DISC/CAPTURE",
        "--stages curve --curve nab --speeds 78/450|outside",
        "--stages curve --curve nab --curve-gain 99|outside"
      })
  void nonsenseIsRefusedInOneSentence(String options, String words) {
    CommandRun run = restore(options.split(" "));
    assertEquals(ExitCode.USAGE, run.code(), run.err());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains(words), run.err());
    assertFalse(Files.exists(dir.resolve("out")));
  }

  @Test
  void theChoiceAndItsReasonGoIntoTheLedger() throws Exception {
    CommandRun run =
        restore(
            "--stages",
            "curve",
            "--captured",
            "flat",
            "--curve",
            "400/12",
            "--curve-gain",
            "-12",
            "--curve-reason",
            "by ear, against two others");
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("curve: as asked"), run.out());
    String ledger = Files.readString(dir.resolve("out/side.ledger.jsonl"));
    assertTrue(ledger.contains("by ear, against two others"), "reason");
    assertTrue(ledger.contains("\"apply\":\"400/12\""), "settings");
    Path back = dir.resolve("back.wav");
    assertEquals(
        0, CommandRun.of("revert", dir.resolve("out/side.ledger.jsonl"), "--out", back).code());
    assertEquals(-1, Files.mismatch(side, back));
  }

  /** Flat, equalised, and back again: two treatments that undo one another but for rounding. */
  @Test
  void aTreatmentFileUndoesWhatOptionsApplied() throws Exception {
    assertEquals(
        0,
        restore(
                "--stages",
                "curve",
                "--captured",
                "flat",
                "--curve",
                "aes-1951",
                "--curve-gain",
                "-12")
            .code());
    Path treatment = dir.resolve("undo.yaml");
    Files.writeString(
        treatment,
        "treatment: 1\nstages: [curve]\ncurve:\n  undo: aes-1951\n  gainDb: 12\n  reason: \"it was a mistake\"\n");
    CommandRun run =
        CommandRun.of(
            "restore",
            dir.resolve("out/side.restored.wav"),
            "--treatment",
            treatment,
            "--out",
            dir.resolve("again"),
            "--no-clips");
    assertEquals(0, run.code(), run.err());
    byte[] first = Files.readAllBytes(side);
    byte[] again = Files.readAllBytes(dir.resolve("again/side.restored.restored.wav"));
    int worst = 0;
    int at = SmallSide.DATA_AT;
    int shift = again.length - first.length;
    for (; at + 3 <= first.length; at += 3) {
      worst = Math.max(worst, Math.abs(word(first, at) - word(again, at + shift)));
    }
    // dither and rounding of two runs, lifted by 12 dB and by the treble of the undone curve
    assertTrue(worst <= 60, "worst difference " + worst);
  }

  private static int word(byte[] b, int at) {
    return (b[at] & 0xff) | (b[at + 1] & 0xff) << 8 | b[at + 2] << 16;
  }
}
