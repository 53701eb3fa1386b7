package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The curve here is not the program's own filter but the analogue network's two decays (partial
 * fractions of IEC 60098's time constants), convolved sample by sample.
 */
class CaptureAnalyserTest {
  private static final double SECONDS = 8;

  /** Five partials over noise of low frequencies: what hides tails of clicks. */
  private static double[] music(int rate, Random random) {
    double[] x = new double[(int) (SECONDS * rate)];
    double low = 0;
    double smooth = StrictMath.exp(-2 * Math.PI * 150 / rate);
    for (int n = 0; n < x.length; n++) {
      low = smooth * low + (1 - smooth) * random.nextGaussian();
      double v = 0.02 * low + 2e-4 * random.nextGaussian();
      for (int k = 1; k <= 5; k++) {
        v += 0.08 / k * StrictMath.sin(2 * Math.PI * 196.3 * k * n / rate + k);
      }
      x[n] = v;
    }
    return x;
  }

  /** Clicks of 20 to 80 microseconds, one side only or to and fro. */
  private static double[] clicks(int rate, int count, Random random) {
    double[] x = new double[(int) (SECONDS * rate)];
    for (int i = 0; i < count; i++) {
      int at = (int) ((0.3 + (SECONDS - 0.6) * (i + 0.3 * random.nextDouble()) / count) * rate);
      double width = (20 + 60 * random.nextDouble()) * 1e-6 * rate;
      double size = (random.nextBoolean() ? 1 : -1) * (0.05 + 0.2 * random.nextDouble());
      boolean fro = random.nextInt(3) == 0;
      for (int n = 0; n < 12 * width + 4; n++) {
        double rise = StrictMath.exp(-(n + 1) / width) * (n + 1) / width;
        double fall = fro && n > 0 ? StrictMath.exp(-n / width) * n / width : 0;
        x[at + n] += 2 * size * (rise - fall);
      }
    }
    return x;
  }

  private static double[] throughCurve(double[] x, int rate) {
    double slow = StrictMath.exp(-1 / (3180e-6 * rate));
    double fast = StrictMath.exp(-1 / (75e-6 * rate));
    double share = (1 - 318.0 / 3180) / (1 - 75.0 / 3180);
    double[] y = new double[x.length];
    double a = 0;
    double b = 0;
    for (int n = 0; n < x.length; n++) {
      a = slow * a + (1 - slow) * x[n];
      b = fast * b + (1 - fast) * x[n];
      y[n] = 4 * (share * a + (1 - share) * b);
    }
    return y;
  }

  private static BenchWav side(int rate, int count, boolean curve, long seed) {
    Random random = new Random(seed);
    double[] x = music(rate, random);
    double[] c = clicks(rate, count, random);
    if (curve) {
      c = throughCurve(c, rate);
    }
    for (int n = 0; n < x.length; n++) {
      x[n] += c[n];
    }
    return new BenchWav(AudioFormat.pcm(rate, 1, 24), new double[][] {x});
  }

  private static CaptureFinding heard(BenchWav side) throws IOException {
    return CaptureAnalyser.analyse(side, ClickParameters.defaults());
  }

  @ParameterizedTest
  @CsvSource({"44100,3", "48000,4", "96000,5"})
  void clicksWithTheCurvesTailsAreToldFromClicksWithout(int rate, long seed) throws IOException {
    CaptureFinding through = heard(side(rate, 30, true, seed));
    assertThat(through.verdict()).as(through.toString()).isEqualTo("riaa");
    assertThat(through.curve()).isEqualTo(CaptureCurve.RIAA);
    assertThat(through.forCurve()).isGreaterThan(through.forFlat());
    CaptureFinding without = heard(side(rate, 30, false, seed));
    assertThat(without.verdict()).as(without.toString()).isEqualTo("flat");
    assertThat(without.curve()).isEqualTo(CaptureCurve.FLAT);
    assertThat(without.decibans()).isNegative();
  }

  @Test
  void aFewClicksDoNotDecide() throws IOException {
    for (boolean curve : new boolean[] {true, false}) {
      CaptureFinding few = heard(side(44_100, 4, curve, 6));
      assertThat(few.verdict()).as(few.toString()).isEqualTo(CaptureFinding.UNDECIDED);
      assertThat(few.curve()).isEqualTo(CaptureCurve.UNKNOWN);
    }
  }

  @Test
  void aSideWithoutClicksDoesNotDecide() throws IOException {
    CaptureFinding none = heard(side(44_100, 0, false, 7));
    assertThat(none.verdict()).isEqualTo(CaptureFinding.UNDECIDED);
    assertThat(none.analysedSeconds()).isCloseTo(SECONDS, org.assertj.core.data.Offset.offset(0.1));
  }

  @Test
  void aSideFullOfClicksIsNotLookedThrough() throws IOException {
    CaptureFinding many = heard(side(44_100, 150, true, 8));
    assertThat(many.verdict()).isEqualTo("riaa");
    assertThat(many.analysedSeconds()).isLessThan(0.8 * SECONDS);
  }

  @Test
  void theSameSideSaysTheSame() throws IOException {
    assertThat(heard(side(44_100, 20, true, 9))).isEqualTo(heard(side(44_100, 20, true, 9)));
  }

  @ParameterizedTest
  @ValueSource(ints = {8_000, 11_025, 16_000, 22_050, 192_000})
  void otherRatesAreTakenToo(int rate) throws IOException {
    assertThat(heard(side(rate, 3, true, 10)).verdict()).isEqualTo(CaptureFinding.UNDECIDED);
  }

  @Test
  void silenceAndAVeryShortSideSayNothing() throws IOException {
    AudioFormat format = AudioFormat.pcm(44_100, 2, 16);
    for (int frames : new int[] {1, 3_000, 100_000}) {
      CaptureFinding f = heard(new BenchWav(format, new double[2][frames]));
      assertThat(f.clicks()).isZero();
      assertThat(f.verdict()).isEqualTo(CaptureFinding.UNDECIDED);
    }
  }
}
