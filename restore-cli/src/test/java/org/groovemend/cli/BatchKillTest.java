package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A run that is killed at random moments and resumed gives the bytes of one that was left alone. A
 * few kills only; docs/explanation/batch_kills.py does it on 200 sides with fifty.
 */
@Tag("long")
class BatchKillTest {

  private static final int SIDES = 5;
  private static final int KILLS = 4;
  private static final long SEED = 5;

  @TempDir private Path dir;

  private ProcessBuilder batch(Path shelf, String out) {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx512m",
            "-Djava.awt.headless=true",
            "-cp",
            System.getProperty("java.class.path"),
            "org.groovemend.cli.Main",
            "batch",
            shelf.toString(),
            "--out",
            dir.resolve(out).toString(),
            "--stages",
            "clicks",
            "--no-page",
            "--now",
            "2026-01-02T03:04:05Z")
        .redirectErrorStream(true)
        .redirectOutput(dir.resolve(out + ".txt").toFile());
  }

  @Test
  void killedAndResumedIsTheSameAsLeftAlone() throws IOException, InterruptedException {
    Path shelf = Files.createDirectory(dir.resolve("shelf"));
    for (int i = 0; i < SIDES; i++) {
      SmallSide.write(shelf.resolve("s" + i + ".wav"), i);
    }
    Map<String, String> originals = BatchCommandTest.digests(shelf);
    long began = System.nanoTime();
    assertThat(batch(shelf, "alone").start().waitFor()).isZero();
    long whole = System.nanoTime() - began;
    Random random = new Random(SEED);
    int killed = 0;
    for (int i = 0; i < KILLS; i++) {
      Process run = batch(shelf, "killed").start();
      if (!run.waitFor((long) (whole * (0.3 + 0.4 * random.nextDouble())), TimeUnit.NANOSECONDS)) {
        run.destroyForcibly().waitFor();
        killed++;
      }
    }
    assertThat(killed).isPositive();
    assertThat(batch(shelf, "killed").start().waitFor()).isZero();
    assertThat(BatchCommandTest.digests(dir.resolve("killed/sides")))
        .isEqualTo(BatchCommandTest.digests(dir.resolve("alone/sides")));
    assertThat(BatchCommandTest.digests(shelf)).isEqualTo(originals);
    try (var hidden = Files.walk(dir.resolve("killed/sides"))) {
      assertThat(hidden.filter(p -> p.getFileName().toString().startsWith("."))).isEmpty();
    }
    CommandRun catalogue = CommandRun.of("catalogue", dir.resolve("killed"), "state=done");
    assertThat(catalogue.out()).contains(SIDES + " done");
  }
}
