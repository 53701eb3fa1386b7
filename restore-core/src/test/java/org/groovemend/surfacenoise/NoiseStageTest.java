package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Arrays;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class NoiseStageTest {

  private static final int RATE = 44_100;
  private static final AudioFormat STEREO = AudioFormat.pcm(RATE, 2, 24);

  private static double[][] treat(
      double[][] x, NoiseParameters p, GrooveNoise grooveNoise, int segmentFrames) {
    AudioFormat format = AudioFormat.pcm(RATE, x.length, 24);
    NoiseStage stage = new NoiseStage(p, grooveNoise);
    Segmentation seg = stage.segmentation(format);
    return NoiseBenchRunner.treat(
        stage.open(format), seg, segmentFrames > 0 ? segmentFrames : seg.segmentFrames(), x);
  }

  private static GrooveNoise flat(int channels, double power) {
    double[][] p = new double[channels][4097];
    for (double[] c : p) {
      Arrays.fill(c, power);
    }
    double[][] steady = new double[channels][4097];
    for (double[] c : steady) {
      Arrays.fill(c, 1);
    }
    return new GrooveNoise(RATE, 8192, 0, RATE, 100, 0, 0.5, p, steady);
  }

  /** Groove noise with notes over its second half. */
  private static double[][] side(int frames, long seed) {
    double[][] x = NoiseAnalyserTest.white(2, frames, 0.003, seed);
    for (int i = frames / 2; i < frames; i++) {
      double t = (i % 20_000) / (double) RATE;
      double v = 0.2 * Math.exp(-4 * t) * Math.sin(2 * Math.PI * (300 + 100 * (i / 20_000)) * t);
      x[0][i] += v;
      x[1][i] += 0.6 * v;
    }
    return x;
  }

  private static double rms(double[][] x, int from, int to) {
    double s = 0;
    for (double[] c : x) {
      for (int i = from; i < to; i++) {
        s += c[i] * c[i];
      }
    }
    return Math.sqrt(s / ((to - from) * (double) x.length));
  }

  @Test
  void gainOneGivesTheInputBackAtAnyLength() {
    // noise said to be far below everything: every gain is 1
    Random random = new Random(1);
    for (int n : new int[] {1, 2, 511, 512, 2047, 2048, 5000, 70_001}) {
      double[][] x = new double[2][n];
      for (double[] c : x) {
        for (int i = 0; i < n; i++) {
          c[i] = random.nextDouble() - 0.5;
        }
      }
      double[][] y = treat(x, NoiseParameters.defaults().withReductionDb(40), flat(2, 1e-25), 0);
      for (int c = 0; c < 2; c++) {
        assertArrayEquals(x[c], y[c], 1e-12, "length " + n);
      }
    }
  }

  @Test
  void noReductionIsNeutralAndChangesNoBit() {
    NoiseParameters none = NoiseParameters.defaults().withReductionDb(0);
    assertTrue(new NoiseStage(none, flat(2, 1)).neutral());
    assertFalse(new NoiseStage(NoiseParameters.defaults(), flat(2, 1)).neutral());
    double[][] x = side(30_000, 2);
    double[][] y = treat(x, none, flat(2, 1), 0);
    assertArrayEquals(x[0], y[0], 0);
    assertArrayEquals(x[1], y[1], 0);
  }

  @Test
  void whiteNoiseThroughTheFloorAloneFallsByExactlyThat() {
    // noise said to be far above everything: every gain is the floor
    double[][] x = NoiseAnalyserTest.white(2, 40_000, 0.01, 3);
    double[][] y =
        treat(x, new NoiseParameters(12, 23, 186, 0.98, 0.97, -25, 0, 0), flat(2, 1e9), 0);
    double g = StrictMath.pow(10, -0.6);
    for (int i = 0; i < 40_000; i++) {
      assertEquals(g * x[0][i], y[0][i], 1e-12);
    }
  }

  @Test
  void grooveNoiseFallsByWhatWasAskedAndKeepsItsCharacter() throws IOException {
    double[][] x = NoiseAnalyserTest.white(2, 6 * RATE, 0.01, 4);
    for (int i = 0; i < x[0].length; i++) {
      double swing = 1 + 0.25 * Math.sin(2 * Math.PI * i / RATE / 1.8);
      x[0][i] *= swing;
      x[1][i] *= swing;
    }
    double[][] lead = {Arrays.copyOf(x[0], 3 * RATE), Arrays.copyOf(x[1], 3 * RATE)};
    for (double db : new double[] {8, 12}) {
      NoiseParameters p = NoiseParameters.defaults().withReductionDb(db);
      double[][] y = treat(x, p, NoiseAnalyserTest.grooveNoise(lead, p), 0);
      int from = RATE / 2;
      int to = 5 * RATE;
      assertEquals(db, 20 * StrictMath.log10(rms(x, from, to) / rms(y, from, to)), 0.5);
      double ratio = StrictMath.log(kurtosis(y[0], from, to) / kurtosis(x[0], from, to));
      assertEquals(0, ratio, 0.2, "log kurtosis ratio at " + db + " dB");
    }
  }

  @Test
  void aSlowSurgeBelowAllMusicFallsWithTheNoise() throws IOException {
    double[][] x = NoiseAnalyserTest.white(2, 6 * RATE, 0.003, 21);
    double[][] lead = {Arrays.copyOf(x[0], 3 * RATE), Arrays.copyOf(x[1], 3 * RATE)};
    NoiseParameters p = NoiseParameters.defaults().withReductionDb(20);
    GrooveNoise grooveNoise = NoiseAnalyserTest.grooveNoise(lead, p);
    // 20 times the noise power in the line at 0 Hz; the window spreads a ninth of it to the next,
    // 1/225 to the one after
    double surge = 0.003 * Math.sqrt(20 / (2 * 8192 * 4 / (Math.PI * Math.PI)));
    for (double[] c : x) {
      for (int i = 4 * RATE; i < 5 * RATE; i++) {
        c[i] += surge * Math.min(1, Math.min(i - 4 * RATE, 5 * RATE - i) / (0.2 * RATE));
      }
    }
    double[][] y = treat(x, p, grooveNoise, 0);
    double in = Arrays.stream(x[0], (int) (4.2 * RATE), (int) (4.8 * RATE)).average().orElseThrow();
    double out =
        Arrays.stream(y[0], (int) (4.2 * RATE), (int) (4.8 * RATE)).average().orElseThrow();
    assertEquals(surge, in, 0.2 * surge);
    // the line beside, with its ninth of the surge, opens a little
    assertEquals(17.5, 20 * StrictMath.log10(in / out), 2.5);
  }

  /** Fourth over squared second raw moment of the power spectrum (Uemura et al. 2008, raw form). */
  private static double kurtosis(double[] x, int from, int to) {
    org.groovemend.signal.fft.RealFft fft = new org.groovemend.signal.fft.RealFft(2048);
    double[] w = org.groovemend.signal.window.WindowShape.HANN.periodic(2048);
    double[] a = new double[2048];
    double[] p = new double[1025];
    double m2 = 0;
    double m4 = 0;
    for (int s = from; s + 2048 <= to; s += 512) {
      for (int i = 0; i < 2048; i++) {
        a[i] = x[s + i] * w[i];
      }
      fft.forward(a);
      Spectra.power(a, p);
      for (int k = 40; k < 700; k++) {
        m2 += p[k] * p[k];
        m4 += p[k] * p[k] * p[k] * p[k];
      }
    }
    int n = ((to - from - 2048) / 512 + 1) * 660;
    return m4 / n / (m2 / n * (m2 / n));
  }

  @Test
  void segmentsOfAnyLengthGiveTheSameBits() throws IOException {
    double[][] x = side(400_000, 5);
    double[][] lead = {Arrays.copyOf(x[0], 2 * RATE), Arrays.copyOf(x[1], 2 * RATE)};
    NoiseParameters p = NoiseParameters.defaults();
    GrooveNoise grooveNoise = NoiseAnalyserTest.grooveNoise(lead, p);
    double[][] whole = treat(x, p, grooveNoise, 1 << 19);
    for (int segment : new int[] {1 << 16, 1 << 18, 3 << 16}) {
      double[][] y = treat(x, p, grooveNoise, segment);
      assertArrayEquals(whole[0], y[0], 0);
      assertArrayEquals(whole[1], y[1], 0);
    }
  }

  @Test
  void signAndPowersOfTwoPassThrough() throws IOException {
    double[][] x = side(100_000, 6);
    double[][] z = new double[2][100_000];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < x[c].length; i++) {
        z[c][i] = -0.25 * x[c][i];
      }
    }
    NoiseParameters p = NoiseParameters.defaults();
    double[][] y = treat(x, p, flat(2, 9e-6 * 4096), 0);
    double[][] w = treat(z, p, flat(2, 9e-6 * 256), 0);
    for (int i = 0; i < x[0].length; i++) {
      assertEquals(-0.25 * y[0][i], w[0][i], 0);
    }
  }

  @Test
  void silenceStaysSilence() {
    double[][] y = treat(new double[2][50_000], NoiseParameters.defaults(), flat(2, 1e-3), 0);
    assertEquals(0, rms(y, 0, 50_000));
  }

  @Test
  void noSampleLevelFallsBelowTheFloorAndMusicStays() throws IOException {
    double[][] x = side(8 * RATE, 7);
    double[][] lead = {Arrays.copyOf(x[0], 3 * RATE), Arrays.copyOf(x[1], 3 * RATE)};
    NoiseParameters p = NoiseParameters.defaults().withReductionDb(12);
    double[][] y = treat(x, p, NoiseAnalyserTest.grooveNoise(lead, p), 0);
    for (int s = 0; s + 4096 <= x[0].length; s += 4096) {
      double drop = 20 * StrictMath.log10(rms(x, s, s + 4096) / rms(y, s, s + 4096));
      assertTrue(drop < 12.05, "falls by " + drop + " dB at " + s);
    }
    double change = 20 * StrictMath.log10(rms(x, 5 * RATE, 8 * RATE) / rms(y, 5 * RATE, 8 * RATE));
    assertEquals(0, change, 0.1);
  }

  @Test
  void neverAddsErrorAndTakesSomeAway() throws IOException {
    double[][] clean = side(8 * RATE, 8);
    double[][] noise = NoiseAnalyserTest.white(2, 8 * RATE, 0.003, 8); // the very noise in it
    double[][] x = clean;
    NoiseParameters p = NoiseParameters.defaults().withReductionDb(25);
    double[][] lead = {Arrays.copyOf(x[0], 3 * RATE), Arrays.copyOf(x[1], 3 * RATE)};
    double[][] y = treat(x, p, NoiseAnalyserTest.grooveNoise(lead, p), 0);
    double before = 0;
    double after = 0;
    for (int c = 0; c < 2; c++) {
      for (int i = 4 * RATE; i < 8 * RATE; i++) {
        before += noise[c][i] * noise[c][i];
        after += Math.pow(y[c][i] - (x[c][i] - noise[c][i]), 2);
      }
    }
    assertTrue(after < 0.1 * before, 10 * StrictMath.log10(after / before) + " dB");
  }

  @Test
  void theTwoChannelsKeepTheirBalance() throws IOException {
    double[][] x = side(6 * RATE, 9);
    x[1] = x[0].clone();
    for (int i = 0; i < x[1].length; i++) {
      x[1][i] *= 0.5;
    }
    double[][] y = treat(x, NoiseParameters.defaults(), flat(2, 9e-6 * 4096), 0);
    for (int i = 0; i < y[0].length; i++) {
      assertEquals(0.5 * y[0][i], y[1][i], 1e-15);
    }
  }

  private static double rise(double[][] y, double[][] quiet, int from, int to) {
    return 20 * StrictMath.log10(rms(y, from, to) / rms(quiet, from, to));
  }

  @Test
  void aHitIsNotAnnouncedAheadOfItself() throws IOException {
    double[][] x = NoiseAnalyserTest.white(1, 4 * RATE, 0.001, 10);
    double[][] lead = {Arrays.copyOf(x[0], 2 * RATE)};
    NoiseParameters p = NoiseParameters.defaults().withReductionDb(12);
    GrooveNoise grooveNoise = NoiseAnalyserTest.grooveNoise(lead, p);
    double[][] quiet = treat(x, p, grooveNoise, 0);
    Random random = new Random(11);
    int hit = 3 * RATE;
    for (int i = 0; i < 8000; i++) {
      x[0][hit + i] += 0.3 * random.nextGaussian() * Math.exp(-i / 2000.0);
    }
    double[][] y = treat(x, p, grooveNoise, 0);
    // before any frame that holds the hit nothing is different
    assertEquals(0, rise(y, quiet, hit - 16_384, hit - 8192), 0.3);
    // where only long frames hold it the short ones are taken, and their choice is a little
    // uncertain
    double longOnly = rise(y, quiet, hit - 8192, hit - 1024);
    assertTrue(longOnly < 2.5, longOnly + " dB");
    double just = rise(y, quiet, hit - 3072, hit - 441);
    assertTrue(just < 3, just + " dB");
    // its first 20 ms keep their energy
    assertEquals(0, 20 * StrictMath.log10(rms(y, hit, hit + 882) / rms(x, hit, hit + 882)), 0.1);
  }

  @Test
  void aSpectrumForAnotherFormatIsRefused() {
    NoiseStage stage = new NoiseStage(NoiseParameters.defaults(), flat(1, 1));
    String message =
        assertThrows(IllegalArgumentException.class, () -> stage.open(STEREO)).getMessage();
    assertTrue(message.contains("1 channels"), message);
  }

  @Test
  void settingsOutOfRangeAreRefused() {
    for (double bad : new double[] {-1, 61, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> NoiseParameters.defaults().withReductionDb(bad));
    }
  }
}
