package org.groovemend.thump;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.Repair;
import org.groovemend.stage.SegmentWindow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Invented sound in which what is a thump is known exactly. */
class ThumpStageTest {
  private static final int RATE = 48_000;
  private static final int FRAMES = 4 * RATE;
  private static final int AT = 2 * RATE + 123;

  /**
   * Music: noise through a resonator at 260 Hz and a little of everything, alike in both channels.
   */
  private static double[][] music(long seed) {
    Random random = new Random(seed);
    double[][] x = new double[2][FRAMES];
    double turn = 2 * Math.PI * 260 / RATE;
    double r = 0.9995;
    double a = 0;
    double b = 0;
    for (int n = 0; n < FRAMES; n++) {
      double v = 2 * r * Math.cos(turn) * a - r * r * b + 0.0002 * random.nextGaussian();
      b = a;
      a = v;
      x[0][n] = v + 0.0005 * random.nextGaussian();
      x[1][n] = 0.8 * v + 0.0005 * random.nextGaussian();
    }
    return x;
  }

  private static List<Repair> repairs(double[][] x, ThumpParameters p) {
    AudioFormat format = AudioFormat.ieeeFloat(RATE, x.length, 64);
    int n = x[0].length;
    return new ThumpStage(p).open(format).repair(new SegmentWindow(x, 0, n, 0, n, n));
  }

  private static double[][] copy(double[][] x) {
    return java.util.Arrays.stream(x).map(double[]::clone).toArray(double[][]::new);
  }

  private static double energy(double[][] x, double[][] y) {
    double sum = 0;
    for (int c = 0; c < x.length; c++) {
      for (int n = 0; n < x[c].length; n++) {
        double d = x[c][n] - y[c][n];
        sum += d * d;
      }
    }
    return sum;
  }

  private static double gainDb(double[][] clean, double[][] damaged, List<Repair> repairs) {
    double[][] out = copy(damaged);
    for (Repair r : repairs) {
      for (int i = 0; i < r.removed().length; i++) {
        out[r.channel()][(int) r.start() + i] -= r.removed()[i];
      }
    }
    return 10 * Math.log10(energy(damaged, clean) / energy(out, clean));
  }

  /** Start and end of the fall in Hz, decay in s, gains of the two walls. */
  @ParameterizedTest
  @CsvSource({
    "74, 14, 0.050, 0.3, -0.2",
    "74, 14, 0.030, 0.3, 0.02",
    "40, 12, 0.090, 0.2, 0.2",
    "110, 25, 0.045, 0.2, -0.2",
    "30, 30, 0.120, 0.3, -0.1",
  })
  void aKnownThumpIsTakenOut(double start, double end, double decay, double left, double right) {
    double[][] clean = music(1);
    double[][] damaged = copy(clean);
    ThumpSound.add(damaged[0], RATE, AT, left, start, end, 0.12, decay);
    ThumpSound.add(damaged[1], RATE, AT, right, start, end, 0.12, decay);
    List<Repair> repairs = repairs(damaged, ThumpParameters.defaults());
    assertThat(repairs).hasSize(2);
    for (Repair r : repairs) {
      assertThat(r.start()).isCloseTo(AT, within(RATE / 200L));
      assertThat(r.evidence().method()).isEqualTo("thump");
      assertThat(r.evidence().statistic()).isGreaterThan(r.evidence().threshold());
      assertThat(Math.abs(r.removed()[r.removed().length - 1])).as("no step").isLessThan(1e-4);
      assertThat(r.removed().length).isLessThan(RATE / 2);
    }
    // the target set for the stage is 12 dB
    assertThat(gainDb(clean, damaged, repairs)).isGreaterThan(12);
    for (Repair r : repairs) {
      for (int i = 0; i < r.removed().length; i++) {
        damaged[r.channel()][(int) r.start() + i] -= r.removed()[i];
      }
    }
    assertThat(repairs(damaged, ThumpParameters.defaults())).as("second run").isEmpty();
  }

  /** A burst of noise at the front, as the break itself gives, does not hide the ring. */
  @Test
  void theBurstAtTheFrontGoesToo() {
    double[][] clean = music(2);
    double[][] damaged = copy(clean);
    ThumpSound.add(damaged[0], RATE, AT, 0.3, 74, 14, 0.12, 0.06);
    ThumpSound.add(damaged[1], RATE, AT, -0.2, 74, 14, 0.12, 0.06);
    Random random = new Random(3);
    for (int i = 0; i < 48; i++) {
      double v = 0.1 * random.nextGaussian();
      damaged[0][AT + i] += v;
      damaged[1][AT + i] -= 0.7 * v;
    }
    List<Repair> repairs = repairs(damaged, ThumpParameters.defaults());
    assertThat(repairs).hasSize(2);
    assertThat(gainDb(clean, damaged, repairs)).isGreaterThan(12);
  }

  /**
   * The negative twin: a bass drum falls to 50 Hz, is heard alike in both channels and has a
   * beater.
   */
  @Test
  void aBassDrumStays() {
    double[][] x = music(4);
    Random random = new Random(5);
    for (int at = RATE / 4; at < FRAMES; at += RATE / 2) {
      for (double[] channel : x) {
        ThumpSound.add(channel, RATE, at, 0.3, 120, 50, 0.02, 0.11);
      }
      for (int i = 0; i < RATE / 20 && at + i < FRAMES; i++) {
        double v = 0.05 * Math.exp(-i / (0.01 * RATE)) * random.nextGaussian();
        x[0][at + i] += v;
        x[1][at + i] += v;
      }
    }
    assertThat(repairs(x, ThumpParameters.defaults())).isEmpty();
  }

  @Test
  void musicAloneStays() {
    assertThat(repairs(music(6), ThumpParameters.defaults())).isEmpty();
  }

  @Test
  void aShortSideIsLeftAlone() {
    assertThat(repairs(new double[2][RATE / 1000], ThumpParameters.defaults())).isEmpty();
    double[][] x = {java.util.Arrays.copyOf(music(7)[0], RATE / 1000)};
    assertThat(repairs(x, ThumpParameters.defaults())).isEmpty();
  }

  @Test
  void aDeadChannelStaysDead() {
    double[][] x = music(8);
    java.util.Arrays.fill(x[1], 0);
    ThumpSound.add(x[0], RATE, AT, 0.3, 74, 14, 0.12, 0.06);
    assertThat(repairs(x, ThumpParameters.defaults()))
        .isNotEmpty()
        .allSatisfy(r -> assertThat(r.channel()).isZero());
  }

  /**
   * One channel cannot tell the walls apart, which counts against a thump: it may need a lower
   * threshold than the default.
   */
  @Test
  void oneChannelAloneCanDoWithALowerThreshold() {
    double[][] clean = {music(9)[0]};
    double[][] damaged = copy(clean);
    ThumpSound.add(damaged[0], RATE, AT, 0.3, 74, 14, 0.12, 0.06);
    List<Repair> repairs = repairs(damaged, new ThumpParameters(8, 350));
    assertThat(repairs).hasSize(1);
    assertThat(gainDb(clean, damaged, repairs)).isGreaterThan(12);
  }

  @Test
  void neutralSettingsFindNothing() {
    double[][] x = music(10);
    ThumpSound.add(x[0], RATE, AT, 0.3, 74, 14, 0.12, 0.06);
    assertThat(repairs(x, ThumpParameters.neutral())).isEmpty();
    assertThat(repairs(x, ThumpParameters.defaults())).isNotEmpty();
  }

  @Test
  void settingsOutOfRangeAreRefused() {
    assertThatThrownBy(() -> new ThumpParameters(0.5, 350))
        .hasMessageContaining("evidenceDecibans 0.5 is outside");
    assertThatThrownBy(() -> new ThumpParameters(8, 20))
        .hasMessageContaining("longestThumpMilliseconds 20.0 is outside");
  }
}
