package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class SoundAbsenceTest {
  private static final int RATE = 44_100;

  /** Against the formula of Cohen and Berdugo written out. */
  @Test
  void presenceIsTheLikelihoodRatioOfGaussianSoundAndNoise() {
    for (double q : new double[] {0.05, 0.5, 0.95}) {
      for (double xi : new double[] {0.01, 1, 30}) {
        for (double v = 0; v < 20; v += 0.037) {
          double expected = 1 / (1 + q / (1 - q) * (1 + xi) * Math.exp(-v));
          assertEquals(expected, SoundAbsence.presence(q, xi, v), 1e-4, q + " " + xi + " " + v);
        }
      }
    }
    assertEquals(1, SoundAbsence.presence(0.95, 1, 1e30));
  }

  @Test
  void aLineAloneIsNoSoundAndABandOfThemIs() {
    double[] prior = new double[1025];
    Arrays.fill(prior, 0.01);
    SoundAbsence absence = new SoundAbsence(1025);
    prior[400] = 0.5; // by chance, among noise
    assertTrue(absence.of(prior)[400] > 0.9);
    Arrays.fill(prior, 360, 440, 0.5);
    assertEquals(0, absence.of(prior)[400]);
    prior[400] = 1000; // a tone, however narrow, lifts both means
    Arrays.fill(prior, 360, 400, 0.01);
    Arrays.fill(prior, 401, 440, 0.01);
    assertEquals(0, absence.of(prior)[400]);
  }

  /**
   * Lowered by much, what is left of white noise is still the same noise: log ratio of the raw
   * kurtosis of its power spectrum (Uemura et al. 2008) within 0.2, level what was asked within
   * half a decibel.
   */
  @Test
  void residueOfAGreatReductionIsUniform() throws IOException {
    int n = 12 * RATE;
    double[][] x = NoiseAnalyserTest.white(2, n, 0.003, 7);
    NoiseParameters p = NoiseParameters.defaults().withReductionDb(25);
    ArrayRanges side = ArrayRanges.of(RATE, x);
    LeadInFinding bare = LeadInFinding.stated(0, 3L * RATE, n);
    AudioFormat format = AudioFormat.pcm(RATE, 2, 24);
    NoiseStage stage = new NoiseStage(p, NoiseAnalyser.analyse(side, bare, p));
    Segmentation cut = stage.segmentation(format);
    double[][] y = NoiseBenchRunner.treat(stage.open(format), cut, cut.segmentFrames(), x);
    double before = 0;
    double after = 0;
    for (int i = 4 * RATE; i < 11 * RATE; i++) {
      before += x[0][i] * x[0][i];
      after += y[0][i] * y[0][i];
    }
    assertEquals(25, 10 * Math.log10(before / after), 0.5);
    assertEquals(0, Math.log(kurtosis(y[0]) / kurtosis(x[0])), 0.2);
  }

  private static double kurtosis(double[] x) {
    RealFft fft = new RealFft(2048);
    double[] frame = new double[2048];
    double[] power = new double[1025];
    double second = 0;
    double fourth = 0;
    int count = 0;
    for (int at = 4 * RATE; at < 11 * RATE; at += 2048) {
      for (int i = 0; i < 2048; i++) {
        frame[i] = x[at + i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * i / 2048));
      }
      fft.forward(frame);
      Spectra.power(frame, power);
      for (int k = 40; k < 700; k++) {
        second += power[k] * power[k];
        fourth += Math.pow(power[k], 4);
        count++;
      }
    }
    return fourth / count / Math.pow(second / count, 2);
  }
}
