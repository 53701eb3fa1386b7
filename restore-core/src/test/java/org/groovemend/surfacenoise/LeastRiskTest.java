package org.groovemend.surfacenoise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LeastRiskTest {

  private static final int LENGTH = 256;
  private static final int LINES = 129;

  /** Feeds frames in which one estimate is the music itself and the other the noisy spectrum. */
  private static double[] errors(boolean shortIsRight, double signal, long seed) {
    Random random = new Random(seed);
    double[][] noise = new double[1][LINES];
    Arrays.fill(noise[0], 2.0); // one in each part
    double[][] steady = new double[1][LINES];
    Arrays.fill(steady[0], 1.0);
    GrooveNoise groove = new GrooveNoise(44_100, LENGTH, 0, 1, 1, 0, 0, noise, steady);
    LeastRisk choice = new LeastRisk(new SideNoise(groove, null), new FrameGrid(LENGTH));
    choice.begin();
    double[] gain = new double[LINES];
    double[] divergence = new double[LINES];
    double[] into = new double[LENGTH];
    double before = 0;
    double after = 0;
    double[][] music = new double[40][LENGTH];
    for (int f = 0; f < 40; f++) {
      double[] x = new double[LENGTH];
      for (int i = 0; i < LENGTH; i++) {
        music[f][i] = signal;
        x[i] = signal + random.nextGaussian();
      }
      // closed: gain 0, nothing of the noise kept; open: gain 1, all of it
      Arrays.fill(gain, shortIsRight ? 0 : 1);
      Arrays.fill(divergence, shortIsRight ? 0 : 1);
      double[] l = choice.longSpectrum(0, f);
      System.arraycopy(x, 0, l, 0, LENGTH);
      if (!shortIsRight) {
        Arrays.fill(l, 0);
      }
      choice.compare(0, f, x, gain);
      Arrays.fill(choice.longFreedom(), shortIsRight ? 2.0 : 0);
      choice.weigh(f, divergence, 1);
      int done = f - LeastRisk.REACH;
      if (done >= LeastRisk.REACH) {
        choice.decide(done);
        choice.spectrum(0, done, into);
        for (int i = 2; i < LENGTH; i++) {
          after += (into[i] - music[done][i]) * (into[i] - music[done][i]);
          before += 1;
        }
      }
    }
    return new double[] {before, after};
  }

  @Test
  void inNoiseTheEstimateThatKeepsNoneIsTaken() {
    for (boolean shortIsRight : new boolean[] {true, false}) {
      double[] e = errors(shortIsRight, 0, 1);
      assertTrue(e[1] < 0.1 * e[0], shortIsRight + ": " + e[1] / e[0]);
    }
  }

  @Test
  void inMusicTheEstimateThatKeepsItIsTaken() {
    for (boolean shortIsClosed : new boolean[] {true, false}) {
      // music at 3 times the noise: closing costs 9, keeping the noise 1
      double[] e = errors(shortIsClosed, 3, 2);
      assertTrue(e[1] < 1.05 * e[0], shortIsClosed + ": " + e[1] / e[0]);
    }
  }

  /** Stein's sum against the true squared error, which only the test knows. */
  @Test
  void divergenceMakesTheExpectedErrorTrue() {
    assertEquals(1, expectedOverTrueError(0), 0.01);
  }

  @Test
  void divergenceMakesTheExpectedErrorTrueWhereSoundIsUncertain() {
    assertEquals(1, expectedOverTrueError(0.8), 0.01);
  }

  private static double expectedOverTrueError(double absence) {
    Random random = new Random(5);
    double floor = 0.05;
    double expected = 0;
    double truth = 0;
    int channels = 2;
    double[][] prior = new double[1][3];
    double[] gain = new double[3];
    double[] divergence = new double[3];
    double[] ratio = new double[3];
    double[] absences = {absence, absence, absence};
    for (double xi : new double[] {0.3, 1, 4}) {
      Arrays.fill(prior[0], xi);
      for (int trial = 0; trial < 200_000; trial++) {
        double power = 0;
        double[] x = new double[2 * channels];
        double[] s = new double[2 * channels];
        for (int i = 0; i < x.length; i++) {
          s[i] = Math.sqrt(xi / 2) * random.nextGaussian();
          x[i] = s[i] + Math.sqrt(0.5) * random.nextGaussian(); // noise power 1 a channel
          power += x[i] * x[i];
        }
        Arrays.fill(ratio, power / channels);
        PriorEstimate.gains(prior[0], absences, ratio, 1, floor, 1.0 / channels, gain, divergence);
        double residual = 0;
        for (int i = 0; i < x.length; i++) {
          truth += Math.pow(gain[1] * x[i] - s[i], 2);
          residual += Math.pow(gain[1] * x[i] - x[i], 2);
        }
        expected += residual + channels * (2 * divergence[1] - 1);
      }
    }
    return expected / truth;
  }
}
