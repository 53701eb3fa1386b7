package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import org.groovemend.audio.AudioFormat;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class SideNoiseTest {
  private static final int RATE = 44_100;

  /**
   * The same groove elsewhere, with less treble: 0 dB at the lowest line to -6 dB at the highest.
   */
  static GrooveNoise tilted(GrooveNoise noise, long start, long end) {
    double[][] power = new double[noise.power().length][];
    for (int c = 0; c < power.length; c++) {
      power[c] = noise.power()[c].clone();
      for (int k = 0; k < power[c].length; k++) {
        power[c][k] *= Math.pow(10, -0.6 * k / power[c].length);
      }
    }
    return new GrooveNoise(
        noise.sampleRateHz(),
        noise.frameLength(),
        start,
        end,
        noise.framesUsed(),
        noise.framesRejected(),
        noise.uncertaintyDb(),
        power,
        noise.unsteadiness());
  }

  private static GrooveNoise level(double power, long start, long end) {
    double[][] p = new double[1][129];
    double[][] steady = new double[1][129];
    java.util.Arrays.fill(p[0], power);
    java.util.Arrays.fill(steady[0], 1);
    return new GrooveNoise(RATE, 256, start, end, 1, 0, 0, p, steady);
  }

  @Test
  void decibelsMoveEvenlyFromTheMiddleOfTheOneToThatOfTheOther() {
    SideNoise side = new SideNoise(level(1, 0, 1000), level(0.1, 9000, 10_000));
    FrameGrid grid = new FrameGrid(256);
    LocalNoise noise = new LocalNoise(side, grid);
    for (long sample : new long[] {500, 2500, 5000, 7500, 9500}) {
      noise.moveTo((sample - 128) / grid.hop());
      double expected = -10 * (sample - 500) / 9000.0;
      assertEquals(expected, 10 * Math.log10(noise.summed()[7]), 0.1, "at " + sample);
      assertEquals(1, noise.summed()[7] * noise.inverse(0)[7], 1e-12);
    }
    noise.moveTo(-3);
    assertEquals(1, noise.summed()[7]);
    noise.moveTo(10_000);
    assertEquals(0.1, noise.summed()[7], 1e-12);
  }

  @Test
  void whatDiffersByMoreThanAGrooveCanIsNotFollowed() {
    LocalNoise noise =
        new LocalNoise(new SideNoise(level(1, 0, 10), level(1e6, 20, 30)), new FrameGrid(256));
    noise.moveTo(100);
    assertEquals(SideNoise.MOST_DB, 10 * Math.log10(noise.summed()[3]), 1e-9);
    assertThrows(
        IllegalArgumentException.class, () -> new SideNoise(level(1, 0, 10), level(1, 5, 30)));
  }

  @Test
  void withoutRunOutTheNoiseStaysAsItWas() {
    GrooveNoise lead = level(0.3, 0, 10);
    LocalNoise noise = new LocalNoise(new SideNoise(lead, null), new FrameGrid(256));
    noise.moveTo(1_000_000);
    assertArrayEquals(lead.power()[0], noise.summed());
  }

  /** White noise that rises by 9 dB along the side: further than the level is followed. */
  @Test
  void noiseThatRisesTowardsTheLabelFallsByWhatWasAskedAllAlong() throws IOException {
    int n = 16 * RATE;
    double[][] x = NoiseAnalyserTest.white(1, n, 0.003, 5);
    for (int i = 0; i < n; i++) {
      x[0][i] *= Math.pow(10, 9.0 / 20 * i / n);
    }
    NoiseParameters p = NoiseParameters.defaults().withReductionDb(12);
    ArrayRanges side = ArrayRanges.of(RATE, x);
    GrooveNoise start = NoiseAnalyser.analyse(side, LeadInFinding.stated(0, RATE, n), p);
    GrooveNoise end = NoiseAnalyser.analyse(side, LeadInFinding.stated(n - RATE, n, n), p);
    double[] with = drops(x, p, new SideNoise(start, end));
    double[] without = drops(x, p, new SideNoise(start, null));
    for (double drop : with) {
      assertEquals(12, drop, 0.5);
    }
    assertTrue(without[without.length - 1] < 10, without[without.length - 1] + " dB");
  }

  /** By quarters, dB. */
  private static double[] drops(double[][] x, NoiseParameters p, SideNoise noise) {
    AudioFormat format = AudioFormat.pcm(RATE, 1, 24);
    NoiseStage stage = new NoiseStage(p, noise);
    Segmentation cut = stage.segmentation(format);
    double[][] y = NoiseBenchRunner.treat(stage.open(format), cut, cut.segmentFrames(), x);
    double[] drops = new double[4];
    int part = x[0].length / 4;
    for (int q = 0; q < 4; q++) {
      double before = 0;
      double after = 0;
      for (int i = q * part; i < (q + 1) * part; i++) {
        before += x[0][i] * x[0][i];
        after += y[0][i] * y[0][i];
      }
      drops[q] = 10 * Math.log10(before / after);
    }
    return drops;
  }
}
