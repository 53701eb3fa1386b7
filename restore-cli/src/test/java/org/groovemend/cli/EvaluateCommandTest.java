package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.file.WavWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class EvaluateCommandTest {
  @TempDir private Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... args) {
    CommandLine line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    return line.execute(args);
  }

  private String sound(String name, double level, double seconds) throws Exception {
    Path file = folder.resolve(name);
    AudioFormat format = AudioFormat.pcm(44_100, 1, 16);
    int frames = (int) (44_100 * seconds);
    long[][] words = new long[1][frames];
    Random random = new Random(1);
    for (int n = 0; n < frames; n++) {
      words[0][n] =
          Math.round(level * (8000 * StrictMath.sin(0.05 * n) + 20 * random.nextGaussian()));
    }
    try (WavWriter writer =
        WavWriter.create(file, format, frames, List.of(WavChunk.samples()), null)) {
      writer.write(words, 0, frames);
    }
    return file.toString();
  }

  @Test
  void writesTableFiguresAndPicturesTheSameEachTime() throws Exception {
    String sound = sound("sound.wav", 1, 3);
    byte[] before = Files.readAllBytes(Path.of(sound));
    Path first = folder.resolve("one");
    Path second = folder.resolve("two");
    for (Path to : List.of(first, second)) {
      int code =
          run("evaluate", sound, "--scenario", "crackle", "--seconds", "2", "--out", to.toString());
      assertEquals(0, code, err.toString());
    }
    assertTrue(out.toString().contains("| sound.wav | crackle |"), out.toString());
    try (Stream<Path> made = Files.list(first)) {
      assertEquals(4, made.count());
    }
    for (String name :
        List.of(
            EvaluateCommand.TABLE,
            EvaluateCommand.FIGURES,
            EvaluateCommand.ALARMS,
            EvaluateCommand.RECALL)) {
      assertArrayEquals(
          Files.readAllBytes(first.resolve(name)), Files.readAllBytes(second.resolve(name)), name);
    }
    assertArrayEquals(before, Files.readAllBytes(Path.of(sound)));
    assertEquals(
        ExitCode.OUTPUT_EXISTS,
        run("evaluate", sound, "--seconds", "2", "--out", first.toString()));
  }

  @Test
  void whatCannotBeIsSaidInASentenceAndNothingIsMade() throws Exception {
    Path to = folder.resolve("none");
    String silent = sound("silent.wav", 0, 3);
    assertEquals(ExitCode.USAGE, run("evaluate", silent, "--out", to.toString()));
    assertTrue(err.toString().contains("silent"), err.toString());
    String brief = sound("brief.wav", 1, 0.5);
    assertEquals(ExitCode.USAGE, run("evaluate", brief, "--out", to.toString()));
    assertTrue(err.toString().contains("shorter than a second"), err.toString());
    assertEquals(ExitCode.USAGE, run("evaluate", "--scenario", "clix", "--out", to.toString()));
    assertTrue(err.toString().contains("clicks"), err.toString());
    assertEquals(ExitCode.USAGE, run("evaluate", "--seeds", "0", "--out", to.toString()));
    assertFalse(Files.exists(to));
  }
}
