package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.job.plays.MergePlays;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What {@code merge} says to what it cannot take: one sentence, and nothing is written. */
@Tag("long")
class PlaysBadInputTest {
  private static final int RATE = 22_050;
  private static final double SECONDS = 12;

  @TempDir private Path dir;

  private final double[] one = PlayFile.notes(3, RATE, SECONDS);
  private final double[] other = PlayFile.notes(4, RATE, SECONDS);

  private Path stereo(String name, long seed, double[] left, double[] right, double crossing)
      throws IOException {
    double[][] x = new double[2][left.length];
    for (int i = 0; i < left.length; i++) {
      x[0][i] = left[i] + crossing * right[i];
      x[1][i] = right[i] + crossing * left[i];
    }
    return PlayFile.wav(dir.resolve(name), RATE, 0.002, seed, -1, x);
  }

  /** Both where the channels have much in common and where they have nothing. */
  @Test
  void exchangedChannelsAreNamed() throws Exception {
    for (double crossing : new double[] {0.5, 0}) {
      Path a = stereo("a.wav", 1, one, other, crossing);
      Path b = stereo("b.wav", 2, other, one, crossing);
      refused("its channels are exchanged against those of a.wav", a, b);
    }
  }

  @Test
  void theSameMusicInBothChannelsIsNotTakenForExchanged() throws Exception {
    Path a = stereo("a.wav", 1, one, one, 0);
    Path b = stereo("b.wav", 2, one, one, 0);
    CommandRun run = CommandRun.of("merge", a, b, "--out", dir.resolve("both.wav"));
    assertEquals(0, run.code(), run.err());
  }

  @Test
  void anUnfinishedFileIsRefused() throws Exception {
    Path a = PlayFile.wav(dir.resolve("a.wav"), RATE, 0.002, 1, -1, one);
    Path b = PlayFile.wav(dir.resolve("b.wav"), RATE, 0.002, 2, -1, one);
    byte[] whole = Files.readAllBytes(b);
    Files.write(b, java.util.Arrays.copyOf(whole, whole.length / 2));
    CommandRun run = CommandRun.of("merge", a, b, "--out", dir.resolve("never.wav"));
    assertEquals(ExitCode.INPUT_REFUSED, run.code(), run.err());
    assertTrue(run.err().contains("b.wav"), run.err());
    assertFalse(Files.exists(dir.resolve("never.wav")));
  }

  /** Written to after it was first read, before the merged file is whole. */
  @Test
  void aFileThatGrowsMeanwhileIsRefused() throws Exception {
    Path a = PlayFile.wav(dir.resolve("a.wav"), RATE, 0.002, 1, -1, one);
    Path b = PlayFile.wav(dir.resolve("b.wav"), RATE, 0.002, 2, -1, one);
    Path out = dir.resolve("never.wav");
    boolean[] grown = {false};
    InputRejectedException refusal =
        assertThrows(
            InputRejectedException.class,
            () ->
                MergePlays.run(
                    new MergePlays.Request(List.of(a, b), out, 1, false, "test", Instant.EPOCH),
                    Crew.alone(),
                    (step, done, total) -> {
                      if (step.equals("merging") && !grown[0]) {
                        grown[0] = true;
                        append(b);
                      }
                    }));
    assertTrue(refusal.getMessage().contains("changed by another program"), refusal.getMessage());
    assertTrue(grown[0]);
    assertFalse(Files.exists(out));
    assertFalse(Files.exists(dir.resolve("never.merge.json")));
  }

  private static void append(Path file) {
    try {
      Files.write(file, new byte[400], StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /**
   * One score by several players: every note up to 40 ms early or late, louder or softer, with
   * other overtones, phases and decay. No stretch of a wave is shared, but how loudness moves is.
   */
  @Test
  void anotherPerformanceOfTheTuneIsRefused() throws Exception {
    for (int pair = 0; pair < 3; pair++) {
      Path a = PlayFile.wav(dir.resolve("a.wav"), RATE, 0.002, 1, -1, performance(2 * pair));
      Path b = PlayFile.wav(dir.resolve("b.wav"), RATE, 0.002, 2, -1, performance(2 * pair + 1));
      refused("it is no play of the performance of a.wav", a, b);
    }
  }

  private static double[] performance(long player) {
    Random score = new Random(3);
    Random hand = new Random(100 + player);
    double dullness = 0.7 + 0.8 * hand.nextDouble();
    double decay = 3 + 4 * hand.nextDouble();
    double[] x = new double[(int) (SECONDS * RATE)];
    for (double at = 0.25; at < SECONDS - 1; at += 0.125 + 0.25 * score.nextDouble()) {
      double hertz = 150 * Math.pow(2, Math.round(36 * score.nextDouble()) / 12.0);
      double onset = at + 0.04 * (2 * hand.nextDouble() - 1);
      double level = 0.08 * (0.7 + 0.6 * hand.nextDouble());
      for (int k = 1; k <= 8; k++) {
        double phase = 2 * Math.PI * hand.nextDouble();
        for (int i = (int) Math.ceil(onset * RATE); i < (onset + 1) * RATE; i++) {
          double t = i / (double) RATE - onset;
          double fade = Math.min(1, t / 0.003) * Math.exp(-decay * t);
          x[i] +=
              level * fade / Math.pow(k, dullness) * Math.sin(2 * Math.PI * hertz * k * t + phase);
        }
      }
    }
    return x;
  }

  @Test
  void aFolderIsRefused() throws Exception {
    Path a = PlayFile.wav(dir.resolve("a.wav"), RATE, 0.002, 1, -1, one);
    refused("it is a folder", a, Files.createDirectory(dir.resolve("folder")));
  }

  private void refused(String words, Path a, Path b) throws IOException {
    Path out = dir.resolve("never.wav");
    byte[] before = Files.readAllBytes(a);
    CommandRun run = CommandRun.of("merge", a, b, "--out", out);
    assertEquals(ExitCode.INPUT_REFUSED, run.code(), run.err());
    assertTrue(run.err().contains(words), run.err());
    assertFalse(Files.exists(out));
    assertArrayEquals(before, Files.readAllBytes(a));
  }
}
