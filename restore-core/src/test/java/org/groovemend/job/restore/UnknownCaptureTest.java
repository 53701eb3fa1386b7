package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.chain.Progress;
import org.groovemend.click.BenchWav;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A side whose transfer is not stated is treated as its clicks tell, and the papers say so. */
@Tag("long")
class UnknownCaptureTest {
  private static final int RATE = 44_100;

  @TempDir Path folder;

  /** Five partials and clicks of 70 microseconds; through two decays of the curve or not. */
  private Path side(String name, int clicks, boolean curve) throws Exception {
    Random random = new Random(11);
    double[] x = new double[6 * RATE];
    double[] c = new double[x.length];
    for (int i = 0; i < clicks; i++) {
      int at = (int) ((0.3 + 5.4 * (i + 0.3 * random.nextDouble()) / clicks) * RATE);
      double size = (random.nextBoolean() ? 1 : -1) * (0.1 + 0.2 * random.nextDouble());
      for (int n = 0; n < 12; n++) {
        c[at + n] += size * StrictMath.exp(-n / 3.0) * (n == 0 ? 0.5 : 1);
      }
    }
    double slow = StrictMath.exp(-1 / (3180e-6 * RATE));
    double fast = StrictMath.exp(-1 / (75e-6 * RATE));
    double a = 0;
    double b = 0;
    for (int n = 0; n < x.length; n++) {
      a = slow * a + (1 - slow) * c[n];
      b = fast * b + (1 - fast) * c[n];
      x[n] = curve ? 4 * (0.9217 * a + 0.0783 * b) : c[n];
      for (int k = 1; k <= 5; k++) {
        x[n] += 0.08 / k * StrictMath.sin(2 * Math.PI * 196.3 * k * n / RATE + k);
      }
      x[n] += 3e-4 * random.nextGaussian();
    }
    Path file = folder.resolve(name + ".wav");
    new BenchWav(AudioFormat.pcm(RATE, 1, 24), new double[][] {x}).write(file);
    return file;
  }

  private RestoreOutcome restore(Path side, CaptureCurve captured) throws Exception {
    Treatment treatment =
        Treatment.defaults().withStages(List.of(StageId.CLICKS)).withCaptured(captured);
    Path out = folder.resolve(captured.key());
    return Restore.run(
        new RestoreRequest(
            side, out, treatment, null, true, "test", Instant.parse("2026-03-01T12:00:00Z")),
        Crew.alone(),
        Progress.SILENT);
  }

  private void toldAs(Path side, CaptureCurve truth, CaptureCurve other) throws Exception {
    RestoreOutcome unknown = restore(side, CaptureCurve.UNKNOWN);
    String samples = restore(side, truth).restored().samplesSha256();
    assertThat(unknown.restored().samplesSha256())
        .isEqualTo(samples)
        .isNotEqualTo(restore(side, other).restored().samplesSha256());
    assertThat(unknown.remarks()).anyMatch(r -> r.contains("not stated") && r.contains("to 1"));
    assertThat(Files.readString(unknown.ledgerFile()))
        .contains("\"capturedThrough\":\"unknown\"")
        .contains("\"verdict\":\"" + truth.key() + "\"");
    assertThat(Files.readString(unknown.reportFile())).contains("clicks weighed speak for");
  }

  @Test
  void aSideThroughTheCurveIsTreatedLikeOneSaidToBe() throws Exception {
    toldAs(side("curved", 30, true), CaptureCurve.RIAA, CaptureCurve.FLAT);
  }

  @Test
  void aFlatSideIsTreatedLikeOneSaidToBe() throws Exception {
    toldAs(side("flat", 30, false), CaptureCurve.FLAT, CaptureCurve.RIAA);
  }

  @Test
  void aSideThatDoesNotTellIsTreatedAsFlatAndSaysSo() throws Exception {
    Path side = side("few", 3, true);
    RestoreOutcome unknown = restore(side, CaptureCurve.UNKNOWN);
    assertThat(unknown.restored().samplesSha256())
        .isEqualTo(restore(side, CaptureCurve.FLAT).restored().samplesSha256());
    assertThat(unknown.remarks()).anyMatch(r -> r.contains("do not tell"));
    assertThat(Files.readString(unknown.ledgerFile())).contains("\"verdict\":\"undecided\"");
  }

  @Test
  void whatIsStatedIsNotAsked() throws Exception {
    RestoreOutcome stated = restore(side("stated", 30, true), CaptureCurve.FLAT);
    assertThat(Files.readString(stated.ledgerFile())).doesNotContain("\"verdict\"");
    assertThat(stated.remarks()).noneMatch(r -> r.contains("not stated"));
  }
}
