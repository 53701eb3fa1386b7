package org.groovemend.hum;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.RangeReader;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;
import org.junit.jupiter.api.Test;

class HumStageTest {
  private static final int RATE = 8_000;
  private static final int FRAMES = 24 * RATE;
  private static final double SIGMA = 0.001;

  private static double[][] floor(long seed) {
    Random random = new Random(seed);
    double[][] x = new double[2][FRAMES];
    for (double[] c : x) {
      for (int i = 0; i < FRAMES; i++) {
        c[i] = SIGMA * random.nextGaussian();
      }
    }
    return x;
  }

  private static RangeReader reader(double[][] x) {
    return ArrayRanges.of(RATE, x);
  }

  private static HumStage analyse(double[][] x) throws IOException {
    return HumAnalyser.analyse(reader(x), HumParameters.defaults());
  }

  private static double[][] treat(HumStage stage, double[][] x, int segment) {
    AudioFormat format = AudioFormat.pcm(RATE, x.length, 24);
    Segmentation cut = stage.segmentation(format);
    SignalStage.Worker worker = stage.open(format);
    double[][] y = new double[x.length][x[0].length];
    for (int s = 0; s < FRAMES; s += segment) {
      int e = Math.min(FRAMES, s + segment);
      int from = Math.max(0, s - cut.contextBefore());
      int to = Math.min(FRAMES, e + cut.contextAfter());
      double[][] window = new double[x.length][];
      double[][] out = new double[x.length][e - s];
      for (int c = 0; c < x.length; c++) {
        window[c] = java.util.Arrays.copyOfRange(x[c], from, to);
      }
      worker.treat(new SegmentWindow(window, from, to - from, s, e, FRAMES), out);
      for (int c = 0; c < x.length; c++) {
        System.arraycopy(out[c], 0, y[c], s, e - s);
      }
    }
    return y;
  }

  /** Power of x at a frequency, in windows of a second (Hann), mean. */
  private static double power(double[] x, double hertz) {
    double sum = 0;
    int count = 0;
    for (int s = RATE; s + RATE <= FRAMES - RATE; s += RATE / 2, count++) {
      double re = 0;
      double im = 0;
      for (int i = 0; i < RATE; i++) {
        double w = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / RATE);
        double phase = 2 * Math.PI * hertz * i / RATE;
        re += w * x[s + i] * Math.cos(phase);
        im += w * x[s + i] * Math.sin(phase);
      }
      sum += re * re + im * im;
    }
    return sum / count;
  }

  /** 20 dB over what the noise shows in one of those windows. */
  private static double twentyOver() {
    return Math.sqrt(100 * SIGMA * SIGMA * (3.0 / 8) * RATE / (RATE * RATE / 16.0));
  }

  private static double[][] hum(double[][] x, double hertz, double drift) {
    double a = twentyOver();
    double[][] y = {x[0].clone(), x[1].clone()};
    double phase = 0;
    for (int i = 0; i < FRAMES; i++) {
      double t = i / (double) RATE;
      phase += 2 * Math.PI * hertz * (1 + drift * Math.sin(2 * Math.PI * t / 12)) / RATE;
      double swell = 1 + 0.2 * Math.sin(2 * Math.PI * t / 7);
      double v = a * swell * (Math.cos(phase) + Math.cos(2 * phase + 1) + Math.cos(3 * phase + 2));
      y[0][i] += v;
      y[1][i] += 0.8 * v;
    }
    return y;
  }

  @Test
  void aLineFallsToTheFloorAndItsNeighboursStay() throws IOException {
    double[][] x = floor(1);
    double[][] h = hum(x, 50, 0);
    HumStage stage = analyse(h);
    assertTrue(stage.finding().found(), stage.finding().reason());
    double[][] y = treat(stage, h, FRAMES);
    for (int c = 0; c < 2; c++) {
      double left = 0;
      double floor = 0;
      double before = 0;
      for (double f : new double[] {50, 100, 150}) {
        left += power(y[c], f);
        before += power(h[c], f);
        floor += 3 * SIGMA * SIGMA * RATE / 8;
        for (double beside : new double[] {-3, 3}) {
          double change = 10 * StrictMath.log10(power(y[c], f + beside) / power(h[c], f + beside));
          assertEquals(0, change, 0.5, f + beside + " Hz");
        }
      }
      assertTrue(before > 50 * floor);
      // 138 windows half overlapped: the mean scatters by some 0.5 dB of itself
      assertEquals(0, 10 * StrictMath.log10(left / floor), 1.5, "channel " + c);
    }
  }

  @Test
  void driftingAndSwellingHumIsFollowed() throws IOException {
    double[][] x = floor(2);
    double[][] h = hum(x, 60.4, 0.002);
    double[][] y = treat(analyse(h), h, FRAMES);
    double in = 0;
    double left = 0;
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < FRAMES; i++) {
        in += Math.pow(h[c][i] - x[c][i], 2);
        left += Math.pow(y[c][i] - x[c][i], 2);
      }
    }
    assertTrue(left < 0.02 * in, 10 * StrictMath.log10(left / in) + " dB");
  }

  @Test
  void pedalNotesThatBeginAndEndAreNoHum() throws IOException {
    double[][] x = floor(3);
    for (int note = 0; note < 5; note++) {
      double hertz = new double[] {49, 50, 55, 61.7, 50.5}[note];
      for (int i = 0; i < 3 * RATE; i++) {
        double edge = Math.min(1, Math.min(i, 3 * RATE - i) / (0.05 * RATE));
        double t = 2 * Math.PI * hertz * i / RATE;
        double v = 0.1 * edge * (Math.sin(t) + 0.5 * Math.sin(2 * t) + 0.3 * Math.sin(3 * t));
        for (double[] c : x) {
          c[(4 + 3 * note) * RATE + i] += v;
        }
      }
    }
    HumStage stage = analyse(x);
    assertTrue(stage.neutral(), stage.finding().reason());
  }

  @Test
  void noiseSilenceAndAPureToneAreLeft() throws IOException {
    assertTrue(analyse(floor(4)).neutral());
    assertTrue(analyse(new double[2][FRAMES]).neutral());
    double[][] tone = new double[2][FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      tone[0][i] = 0.3 * Math.sin(2 * Math.PI * 100 * i / RATE);
      tone[1][i] = tone[0][i];
    }
    HumStage stage = analyse(tone);
    assertTrue(stage.neutral(), stage.finding().reason());
  }

  @Test
  void switchedOffItTakesNothing() throws IOException {
    double[][] h = hum(floor(7), 50, 0);
    assertTrue(HumAnalyser.analyse(reader(h), HumParameters.neutral()).neutral());
  }

  @Test
  void aDeadChannelStaysDead() throws IOException {
    double[][] h = hum(floor(5), 50, 0);
    h[1] = new double[FRAMES];
    double[][] y = treat(analyse(h), h, FRAMES);
    assertArrayEquals(new double[FRAMES], y[1], 0);
    assertTrue(power(y[0], 50) < 0.1 * power(h[0], 50));
  }

  @Test
  void segmentsOfAnyLengthGiveTheSameBits() throws IOException {
    double[][] h = hum(floor(6), 50.2, 0.001);
    HumStage stage = analyse(h);
    double[][] whole = treat(stage, h, FRAMES);
    for (int segment : new int[] {1_000, 7_777, 65_536}) {
      double[][] y = treat(stage, h, segment);
      assertArrayEquals(whole[0], y[0], 0);
      assertArrayEquals(whole[1], y[1], 0);
    }
  }
}
