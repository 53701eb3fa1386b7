package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Random;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.StageNotPossibleException;
import org.junit.jupiter.api.Test;

class NoiseAnalyserTest {

  private static final int RATE = 44_100;
  private static final NoiseParameters RAW = new NoiseParameters(12, 6, 46, 0.98, 0.97, -25, 3, 0);
  private static final NoiseParameters SMOOTH =
      new NoiseParameters(12, 6, 46, 0.98, 0.97, -25, 3, 1.0 / 12);

  static RangeReader reader(double[][] x) {
    return ArrayRanges.of(RATE, x);
  }

  static double[][] white(int channels, int frames, double rms, long seed) {
    Random random = new Random(seed);
    double[][] x = new double[channels][frames];
    for (double[] channel : x) {
      for (int i = 0; i < frames; i++) {
        channel[i] = rms * random.nextGaussian();
      }
    }
    return x;
  }

  static GrooveNoise grooveNoise(double[][] x, NoiseParameters p) throws IOException {
    return NoiseAnalyser.analyse(reader(x), LeadInFinding.stated(0, x[0].length, x[0].length), p);
  }

  @Test
  void whiteNoiseIsEstimatedWithoutBiasAndWithTheScatterOfWelch() throws IOException {
    double rms = 0.01;
    GrooveNoise p = grooveNoise(white(2, 2 * RATE, rms, 1), RAW);
    double expected = rms * rms * 1024; // window squares sum to half the length
    double share = 0;
    for (String[] row : Table.read("welch_variance.csv")) {
      if (row[0].equals("sqrt-Hann") && row[1].equals("4")) {
        share = Double.parseDouble(row[row.length - 2]);
      }
    }
    double sd = 1 / Math.sqrt(p.framesUsed() * share);
    assertEquals(4.343 * sd, p.uncertaintyDb(), 0.01);
    for (double[] power : p.power()) {
      double mean = 0;
      double square = 0;
      for (int k = 1; k < 1024; k++) {
        double e = power[k] / expected - 1;
        mean += e / 1023;
        square += e * e / 1023;
        assertTrue(Math.abs(e) < 5 * sd, k + ": " + e); // the worst of 2046 lines
      }
      assertEquals(0, 10 * StrictMath.log10(1 + mean), 0.1);
      assertEquals(1, Math.sqrt(square) / sd, 0.15);
    }
  }

  @Test
  void smoothingLowersTheScatterButLeavesAHumLineAlone() throws IOException {
    double[][] x = white(1, 2 * RATE, 0.01, 2);
    double hz = 40 * RATE / 2048.0;
    for (int i = 0; i < x[0].length; i++) {
      x[0][i] += 0.01 * Math.sin(2 * Math.PI * hz * i / RATE);
    }
    double[] raw = grooveNoise(x, RAW).power()[0];
    double[] smooth = grooveNoise(x, SMOOTH).power()[0];
    assertEquals(raw[40], smooth[40], 0);
    assertEquals(0, 10 * StrictMath.log10(smooth[43] / (1e-4 * 1024)), 2.0);
    double a = 0;
    double b = 0;
    for (int k = 300; k < 1000; k++) {
      a += Math.pow(raw[k] / 0.1024 - 1, 2);
      b += Math.pow(smooth[k] / 0.1024 - 1, 2);
    }
    assertTrue(b < a / 8, a + " " + b);
  }

  @Test
  void leftOverClicksAreRejected() throws IOException {
    double[][] x = white(1, 3 * RATE, 0.01, 3);
    double[] clean = grooveNoise(x, SMOOTH).power()[0];
    for (int i = 5000; i < x[0].length; i += 40_000) {
      x[0][i] += 0.8;
    }
    GrooveNoise p = grooveNoise(x, SMOOTH);
    assertTrue(p.framesRejected() >= 12, "rejected " + p.framesRejected());
    for (int k = 20; k < 1000; k++) {
      assertEquals(0, 10 * StrictMath.log10(p.power()[0][k] / clean[k]), 1.2, "line " + k);
    }
  }

  @Test
  void noiseThatComesInSurgesIsToldFromSteadyNoise() throws IOException {
    double[][] x = white(1, 6 * RATE, 0.01, 6);
    for (double u : grooveNoise(x, SMOOTH).unsteadiness()[0]) {
      assertEquals(1, u, 0.1);
    }
    for (int i = 0; i < x[0].length; i++) {
      // 10 dB stronger in two seconds of three, so that the median frame is strong and none is
      // rejected
      x[0][i] *= i / RATE % 3 == 0 ? 1 : Math.sqrt(10);
    }
    GrooveNoise p = grooveNoise(x, new NoiseParameters(12, 6, 46, 0.98, 0.97, -25, 3, 0));
    assertEquals(0, p.framesRejected());
    double mean = 0;
    for (int k = 100; k < 1000; k++) {
      mean += p.unsteadiness()[0][k] / 900;
    }
    // mean of squares over square of mean of the level, less 0.25 for the turning of the disc
    assertEquals((1 + 2 * 100) / 3.0 / Math.pow((1 + 2 * 10) / 3.0, 2) - 0.25, mean, 0.05);
  }

  /**
   * What is taken for the noise of a short stretch is right on the mean of a ratio: true power over
   * it averages 1 over many stretches (gamma distribution, any handbook), where the bare mean of
   * the spectra gives n / (n - 1), a fifth too much here.
   */
  @Test
  void aShortStretchIsTakenForALittleMoreThanItShows() throws IOException {
    NoiseParameters unsmoothed = new NoiseParameters(12, 6, 46, 0.98, 0.97, -25, 3, 0);
    double ratio = 0;
    double bare = 0;
    int count = 0;
    for (int seed = 0; seed < 300; seed++) {
      GrooveNoise p = grooveNoise(white(1, 2048 * 4, 0.01, 100 + seed), unsmoothed);
      assertEquals(2048, p.frameLength());
      double truth = 0.01 * 0.01 * 1024; // variance times sum of squares of the window
      for (int k = 5; k < 100; k++) {
        ratio += truth / p.takenFor(0)[k];
        bare += truth / p.power()[0][k];
        count++;
      }
    }
    assertEquals(1, ratio / count, 0.05);
    assertTrue(bare / count > 1.15, bare / count + "");
  }

  @Test
  void aShortStretchIsHeardWithHalfTheFrame() throws IOException {
    double[][] x = white(1, 6000, 0.01, 9); // under four frames of 2048
    GrooveNoise p = grooveNoise(x, SMOOTH);
    assertEquals(2048, p.frameLength());
    double mean = 0;
    for (int k = 100; k < 1000; k++) {
      mean += p.power()[0][k] / 900;
    }
    // white: half the length times the variance
    assertEquals(0, 10 * StrictMath.log10(mean / (1024 * 1e-4)), 0.5);
  }

  @Test
  void thirdOctavesAddUpToTheLevel() throws IOException {
    GrooveNoise p = grooveNoise(white(1, 4 * RATE, 0.01, 4), SMOOTH);
    for (GrooveNoise.Band band : p.thirdOctaves()) {
      if (band.centreHz() > 200) {
        // white: 2 df / rate of the whole mean square
        double width = band.centreHz() * (StrictMath.pow(10, 0.05) - StrictMath.pow(10, -0.05));
        assertEquals(-40 + 10 * StrictMath.log10(2 * width / RATE), band.levelDbfs().get(0), 0.7);
      }
    }
  }

  @Test
  void aStretchThatIsMissingOrTooShortIsRefusedInASentence() {
    double[][] x = white(1, RATE, 0.01, 5);
    String message =
        assertThrows(
                StageNotPossibleException.class,
                () -> NoiseAnalyser.analyse(reader(x), LeadInFinding.stated(0, 4000, RATE), RAW))
            .getMessage();
    assertTrue(message.contains("too short") && message.contains("0.091"), message);
  }
}
