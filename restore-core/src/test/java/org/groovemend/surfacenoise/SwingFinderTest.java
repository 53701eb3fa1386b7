package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.audio.AudioFormat;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class SwingFinderTest {
  private static final int RATE = 16_000;
  private static final int N = 60 * RATE;
  private static final NoiseParameters P = NoiseParameters.defaults().withReductionDb(12);

  /**
   * Noise of a level in dB at each second; from 3 to 58 s notes of half a second besides, below 5
   * kHz.
   */
  private static double[][] side(DoubleUnaryOperator levelDb, boolean notes) {
    double[][] x = NoiseAnalyserTest.white(1, N, 0.003, 3);
    Random random = new Random(4);
    double step = 0;
    for (int i = 0; i < N; i++) {
      double t = i / (double) RATE;
      x[0][i] *= Math.pow(10, levelDb.applyAsDouble(t) / 20);
      if (i % (RATE / 2) == 0) {
        step = 2 * Math.PI * (200 + 1500 * random.nextDouble()) / RATE;
      }
      if (notes && t > 3 && t < 58) {
        x[0][i] += 0.1 * Math.sin(step * i) + 0.03 * Math.sin(3 * step * i);
      }
    }
    return x;
  }

  private static SideNoise noise(double[][] x) throws IOException {
    return new SideNoise(
        NoiseAnalyser.analyse(ArrayRanges.of(RATE, x), LeadInFinding.stated(0, 2L * RATE, N), P),
        null);
  }

  private static TurnSwing find(double[][] x) throws IOException {
    return SwingFinder.find(ArrayRanges.of(RATE, x), noise(x), P);
  }

  /** 10 dB from least to most, 0.3 % fast to begin with and 0.3 % slow at the end. */
  private static double swish(double t) {
    double rate = 78.26 / 60;
    double turns = rate * (1.003 * t - 0.003 * t * t / 60);
    return 5 * Math.sin(2 * Math.PI * turns + 1);
  }

  @Test
  void aSwishIsFoundThroughMusicAndFollowedThroughDrift() throws IOException {
    TurnSwing swing = find(side(SwingFinderTest::swish, true));
    assertNotNull(swing);
    assertEquals(60 / 78.26, swing.turnSeconds(), 0.01 * 60 / 78.26);
    assertEquals(10, swing.swingDb(), 1.5);
    double worst = 0;
    for (double t = 12; t < 48; t += 0.013) {
      double dB = 10 / Math.log(10) * swing.logAt(t);
      worst = Math.max(worst, Math.abs(dB - swish(t)));
    }
    assertTrue(worst < 2, worst + " dB");
  }

  @Test
  void evenNoiseHasNone() throws IOException {
    assertNull(find(side(t -> 0, true)));
    assertNull(find(side(t -> 0, false)));
  }

  @Test
  void anotherSpeedThanADiscTurnsAtIsNotBelieved() throws IOException {
    assertNull(find(side(t -> 5 * Math.sin(2 * Math.PI * t), true)));
  }

  /** A drum at the very speed of the disc, over bare groove that does not swing. */
  @Test
  void aBeatThatTheBareGrooveDoesNotShowIsNotTheGroove() throws IOException {
    DoubleUnaryOperator beat = t -> t > 2.1 ? 5 + 5 * Math.sin(2 * Math.PI * t * 78.26 / 60) : 0;
    assertNull(find(side(beat, false)));
  }

  @Test
  void aShortSideIsNotJudged() throws IOException {
    double[][] x = side(SwingFinderTest::swish, true);
    double[][] part = {java.util.Arrays.copyOf(x[0], 45 * RATE)};
    assertNull(SwingFinder.find(ArrayRanges.of(RATE, part), noise(x), P));
  }

  @Test
  void noiseThatSwishesFallsByWhatWasAsked() throws IOException {
    double[][] x = side(SwingFinderTest::swish, false);
    // half a turn of bare groove: the quieter half or the louder, as it happens
    SideNoise still =
        new SideNoise(
            NoiseAnalyser.analyse(
                ArrayRanges.of(RATE, x), LeadInFinding.stated(RATE * 2 / 5, RATE * 6 / 5, N), P),
            null);
    TurnSwing swing = SwingFinder.find(ArrayRanges.of(RATE, x), still, P);
    assertNotNull(swing);
    assertEquals(12, drop(x, still.withSwing(swing)), 0.5);
  }

  private static double drop(double[][] x, SideNoise noise) {
    AudioFormat format = AudioFormat.pcm(RATE, 1, 24);
    NoiseStage stage = new NoiseStage(P, noise);
    Segmentation cut = stage.segmentation(format);
    double[][] y = NoiseBenchRunner.treat(stage.open(format), cut, cut.segmentFrames(), x);
    double before = 0;
    double after = 0;
    for (int i = 3 * RATE; i < 57 * RATE; i++) {
      before += x[0][i] * x[0][i];
      after += y[0][i] * y[0][i];
    }
    return 10 * Math.log10(before / after);
  }
}
