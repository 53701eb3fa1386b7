package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.Repair;
import org.groovemend.stage.RepairStage;
import org.junit.jupiter.api.Test;

/** Dense small pulses: 300 a second of random size on invented music, each wall by itself. */
class CrackleStageTest {
  private static final int RATE = 44_100;
  private static final int FRAMES = 4 * RATE;
  private static final double[] PULSE = {0.4, 1, 0.6, 0.1, -0.3, -0.4, -0.2, 0.1};

  private final BenchWav clean = music();
  private final BenchWav crackling = crackling();

  private static BenchWav music() {
    Random random = new Random(31);
    double[][] x = new double[2][FRAMES];
    for (int n = 0; n < FRAMES; n++) {
      for (int c = 0; c < 2; c++) {
        for (int k = 1; k <= 6; k++) {
          x[c][n] += 0.1 / k * StrictMath.sin(2 * Math.PI * n * k * (196 + 2 * c) / RATE + k);
        }
        x[c][n] += 1e-3 * random.nextGaussian();
      }
    }
    return new BenchWav(AudioFormat.pcm(RATE, 2, 24), x);
  }

  private BenchWav crackling() {
    BenchWav side = clean.copy();
    Random random = new Random(32);
    for (int i = 0; i < 300 * FRAMES / RATE; i++) {
      int at = RATE / 10 + random.nextInt(FRAMES - RATE / 5);
      double size = 0.01 * StrictMath.exp(random.nextGaussian());
      int wall = random.nextInt(2);
      for (int k = 0; k < PULSE.length; k++) {
        side.samples()[wall][at + k] += size * PULSE[k];
      }
    }
    return side;
  }

  private static RepairStage clicks(BenchWav side) throws Exception {
    ClickParameters p = ClickParameters.defaults();
    return new ClickStage(p, ClickAnalyser.analyse(side, p, CaptureCurve.FLAT), CaptureCurve.FLAT);
  }

  private static RepairStage crackle(BenchWav side) throws Exception {
    CrackleParameters p = CrackleParameters.defaults();
    return new CrackleStage(
        p, CrackleStage.analyse(side, p, CaptureCurve.FLAT, Crew.alone()), CaptureCurve.FLAT);
  }

  private static List<Repair> repairs(BenchWav side, RepairStage stage) {
    return ClickBenchRunner.repairs(side, stage, stage.segmentation(side.format()));
  }

  private static BenchWav repaired(BenchWav side, RepairStage stage) {
    BenchWav out = side.copy();
    ClickBenchRunner.apply(repairs(side, stage), out.samples());
    return out;
  }

  private double error(BenchWav side) {
    double sum = 0;
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < FRAMES; n++) {
        double d = side.samples()[c][n] - clean.samples()[c][n];
        sum += d * d;
      }
    }
    return sum;
  }

  @Test
  void noSampleIsRepairedTwice() throws Exception {
    long[] done = new long[2];
    for (Repair r : repairs(crackling, clicks(crackling))) {
      assertThat(r.start()).isGreaterThanOrEqualTo(done[r.channel()]);
      done[r.channel()] = r.end();
    }
    assertThat(done[0]).isPositive();
  }

  @Test
  void denseDamageGoesAndASecondPassDoesNoHarm() throws Exception {
    BenchWav once = repaired(crackling, clicks(crackling));
    BenchWav twice = repaired(once, crackle(once));
    // measured: 18 dB by the first; the second finds nothing more here, and must then change
    // nothing
    assertThat(error(once)).isLessThan(error(crackling) / 32);
    assertThat(error(twice)).isLessThanOrEqualTo(error(once));
  }

  @Test
  void soundWithoutCrackleIsLeftAlone() throws Exception {
    assertThat(repairs(clean, crackle(clean))).isEmpty();
  }
}
