package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.stage.Repair;
import org.groovemend.stage.Segmentation;
import org.junit.jupiter.api.Test;

class ClickStageTest {
  private static final int RATE = 44_100;
  private static final AudioFormat STEREO = AudioFormat.pcm(RATE, 2, 24);
  private static final ClickParameters P = ClickParameters.defaults();

  /** Five partials and a noise floor 50 dB below, invented; different in the two channels. */
  private static BenchWav music(int frames, long seed) {
    Random random = new Random(seed);
    double[][] x = new double[2][frames];
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < frames; n++) {
        double v = 0;
        for (int k = 1; k <= 5; k++) {
          v += 0.1 / k * StrictMath.sin(2 * Math.PI * n * k * (220 + 30 * c) / RATE + k * c);
        }
        x[c][n] = v + 3e-4 * random.nextGaussian();
      }
    }
    return new BenchWav(STEREO, x);
  }

  private static List<Repair> repairs(BenchWav wav, CaptureCurve captured) throws Exception {
    ClickStage stage = new ClickStage(P, ClickAnalyser.analyse(wav, P, captured), captured);
    return ClickBenchRunner.repairs(wav, stage, stage.segmentation(wav.format()));
  }

  /** A pulse of about 0.1 ms that rings once. */
  private static void click(double[] x, int at, double size) {
    double[] pulse = {0.3, 1, 0.7, -0.4, -0.5, 0.2};
    for (int i = 0; i < pulse.length; i++) {
      x[at + i] += size * pulse[i];
    }
  }

  @Test
  void theOtherWallIsSearchedForThePulseOfTheFirst() throws Exception {
    BenchWav clean = music(4 * RATE, 9);
    for (boolean both : new boolean[] {true, false}) {
      BenchWav damaged = clean.copy();
      click(damaged.samples()[0], 70_000, 0.2);
      if (both) {
        // 12 dB above the noise floor at its peak: nothing that stands out by itself among 176,400
        // samples
        click(damaged.samples()[1], 70_000, -1.2e-3);
      }
      List<Repair> repairs = repairs(damaged, CaptureCurve.FLAT);
      assertThat(repairs).extracting(Repair::channel).isEqualTo(both ? List.of(0, 1) : List.of(0));
    }
  }

  @Test
  void clicksAreRepairedAndNothingElse() throws Exception {
    BenchWav clean = music(4 * RATE, 1);
    BenchWav damaged = clean.copy();
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      int at = 5000 + i * 8111;
      places.add(at);
      click(damaged.samples()[i % 2], at, 0.05 + 0.02 * i);
    }
    List<Repair> repairs = repairs(damaged, CaptureCurve.FLAT);
    assertThat(repairs).hasSize(20);
    BenchWav restored = damaged.copy();
    ClickBenchRunner.apply(repairs, restored.samples());
    double before = 0;
    double after = 0;
    for (int i = 0; i < 20; i++) {
      assertThat(repairs.get(i).channel()).isEqualTo(i % 2);
      assertThat(repairs.get(i).start()).isBetween(places.get(i) - 4L, (long) places.get(i));
      assertThat(repairs.get(i).end()).isBetween(places.get(i) + 5L, places.get(i) + 60L);
      for (int n = places.get(i) - 4; n < places.get(i) + 60; n++) {
        before += square(damaged.samples()[i % 2][n] - clean.samples()[i % 2][n]);
        after += square(restored.samples()[i % 2][n] - clean.samples()[i % 2][n]);
      }
    }
    assertThat(10 * Math.log10(before / after)).isGreaterThan(40);
  }

  @Test
  void cleanMusicIsLeftAlone() throws Exception {
    assertThat(repairs(music(4 * RATE, 2), CaptureCurve.FLAT)).isEmpty();
    assertThat(repairs(music(4 * RATE, 2), CaptureCurve.RIAA)).isEmpty();
  }

  @Test
  void tailsOfAnEqualisedTransferGoToo() throws Exception {
    BenchWav flatClean = music(2 * RATE, 3);
    BenchWav flat = flatClean.copy();
    for (int i = 0; i < 8; i++) {
      click(flat.samples()[0], 9000 + i * 9001, 0.4);
    }
    BenchWav clean = equalised(flatClean);
    BenchWav damaged = equalised(flat);
    List<Repair> repairs = repairs(damaged, CaptureCurve.RIAA);
    assertThat(repairs).hasSize(8).allMatch(r -> r.removed().length > RATE / 100);
    BenchWav restored = damaged.copy();
    ClickBenchRunner.apply(repairs, restored.samples());
    double before = 0;
    double after = 0;
    for (int n = 0; n < 2 * RATE; n++) {
      before += square(damaged.samples()[0][n] - clean.samples()[0][n]);
      after += square(restored.samples()[0][n] - clean.samples()[0][n]);
    }
    assertThat(10 * Math.log10(before / after)).isGreaterThan(30);
    for (Repair r : repairs) {
      assertThat(r.removed()[0]).isNotZero();
      assertThat(Math.abs(r.removed()[r.removed().length - 1])).isGreaterThan(0.4 / (1 << 23));
    }
  }

  private static BenchWav equalised(BenchWav flat) {
    BenchWav out = flat.copy();
    for (int c = 0; c < 2; c++) {
      PlaybackFilter.design(PlaybackCurve.MICROGROOVE, RATE)
          .forward()
          .fromRest(flat.samples()[c], out.samples()[c], 0, flat.samples()[c].length);
    }
    return out;
  }

  @Test
  void segmentsOfAnyLengthGiveTheSameRepairs() throws Exception {
    for (CaptureCurve curve : List.of(CaptureCurve.FLAT, CaptureCurve.RIAA)) {
      BenchWav wav = music(5 * RATE, 4);
      for (int i = 0; i < 60; i++) {
        click(wav.samples()[i % 2], 2000 + i * 3407, 0.02 + 0.01 * i);
      }
      click(wav.samples()[0], 65_533, 0.5);
      ClickStage stage = new ClickStage(P, ClickAnalyser.analyse(wav, P, curve), curve);
      Segmentation own = stage.segmentation(wav.format());
      Segmentation small = new Segmentation(1 << 16, own.contextBefore(), own.contextAfter());
      Segmentation odd = new Segmentation(50_001, own.contextBefore(), own.contextAfter());
      List<Repair> whole = ClickBenchRunner.repairs(wav, stage, new Segmentation(5 * RATE, 0, 0));
      assertThat(whole).hasSizeGreaterThan(30);
      assertSame(ClickBenchRunner.repairs(wav, stage, small), whole);
      assertSame(ClickBenchRunner.repairs(wav, stage, odd), whole);
    }
  }

  private static void assertSame(List<Repair> actual, List<Repair> expected) {
    assertThat(actual).hasSameSizeAs(expected);
    for (int i = 0; i < expected.size(); i++) {
      assertThat(actual.get(i).start()).isEqualTo(expected.get(i).start());
      assertThat(actual.get(i).channel()).isEqualTo(expected.get(i).channel());
      assertThat(actual.get(i).removed()).isEqualTo(expected.get(i).removed());
      assertThat(actual.get(i).evidence()).isEqualTo(expected.get(i).evidence());
    }
  }

  @Test
  void polarityAndPowersOfTwoOnlyScaleTheRepairs() throws Exception {
    BenchWav wav = music(2 * RATE, 5);
    for (int i = 0; i < 10; i++) {
      click(wav.samples()[1], 4000 + i * 7001, 0.1);
    }
    List<Repair> plain = repairs(wav, CaptureCurve.FLAT);
    assertThat(plain).hasSize(10);
    for (double factor : new double[] {-1, 0.5, 2}) {
      BenchWav scaled = wav.copy();
      for (double[] c : scaled.samples()) {
        for (int n = 0; n < c.length; n++) {
          c[n] *= factor;
        }
      }
      List<Repair> r = repairs(scaled, CaptureCurve.FLAT);
      assertThat(r).hasSameSizeAs(plain);
      for (int i = 0; i < r.size(); i++) {
        assertThat(r.get(i).start()).isEqualTo(plain.get(i).start());
        double[] expected = plain.get(i).removed().clone();
        for (int n = 0; n < expected.length; n++) {
          expected[n] *= factor;
        }
        assertThat(r.get(i).removed()).isEqualTo(expected);
      }
    }
  }

  /**
   * Threshold 6 is never undercut, so white noise gives fewer alarms than asked for; never more
   * than Poisson allows.
   */
  @Test
  void whiteNoiseKeepsToTheStatedAlarms() throws Exception {
    Random random = new Random(6);
    double[][] x = new double[2][30 * RATE];
    for (double[] c : x) {
      for (int n = 0; n < c.length; n++) {
        c[n] = 0.1 * random.nextGaussian();
      }
    }
    // 2 a minute asked for, half a minute: mean 1, four standard deviations above is 5
    assertThat(repairs(new BenchWav(STEREO, x), CaptureCurve.FLAT)).hasSizeLessThanOrEqualTo(5);
  }

  @Test
  void oddSidesEndSensibly() throws Exception {
    for (CaptureCurve curve : List.of(CaptureCurve.RIAA, CaptureCurve.FLAT, CaptureCurve.UNKNOWN)) {
      assertThat(repairs(side(1, n -> 0.5), curve)).isEmpty();
      assertThat(repairs(side(100, n -> n % 7 - 3), curve)).allMatch(ClickStageTest::finite);
      assertThat(repairs(side(RATE, n -> 0), curve)).isEmpty();
      assertThat(repairs(side(RATE, n -> 0.25), curve)).allMatch(ClickStageTest::finite);
      assertThat(repairs(side(RATE, n -> n / 50 % 2 == 0 ? 0.5 : -0.5), curve))
          .allMatch(ClickStageTest::finite);
      BenchWav dead = music(RATE, 8);
      Arrays.fill(dead.samples()[1], 0);
      click(dead.samples()[0], 20_000, 0.5);
      assertThat(repairs(dead, curve)).isNotEmpty().allMatch(r -> r.channel() == 0 && finite(r));
      BenchWav mono =
          new BenchWav(AudioFormat.pcm(RATE, 1, 16), new double[][] {dead.samples()[0]});
      assertThat(repairs(mono, curve)).isNotEmpty().allMatch(ClickStageTest::finite);
    }
  }

  private interface Wave {
    double at(int n);
  }

  private static BenchWav side(int frames, Wave wave) {
    double[][] x = new double[2][frames];
    for (double[] c : x) {
      for (int n = 0; n < frames; n++) {
        c[n] = wave.at(n);
      }
    }
    return new BenchWav(STEREO, x);
  }

  private static boolean finite(Repair r) {
    return Arrays.stream(r.removed()).allMatch(Double::isFinite);
  }

  @Test
  void neutralStageSaysSo() throws Exception {
    BenchWav wav = music(RATE, 9);
    click(wav.samples()[0], 20_000, 0.5);
    ClickParameters off = ClickParameters.neutral();
    ClickStage stage =
        new ClickStage(off, ClickAnalyser.analyse(wav, off, CaptureCurve.FLAT), CaptureCurve.FLAT);
    assertThat(stage.neutral()).isTrue();
    assertThat(ClickBenchRunner.repairs(wav, stage, stage.segmentation(STEREO))).isEmpty();
    assertThat(
            new ClickStage(P, ClickAnalyser.analyse(wav, P, CaptureCurve.FLAT), CaptureCurve.FLAT)
                .neutral())
        .isFalse();
  }

  @Test
  void parametersOutsideTheirRangesAreRefused() {
    assertThatThrownBy(() -> new ClickParameters(-1, 8, 32, 256, 3, -80))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("expectedFalseAlarmsPerMinute");
    assertThatThrownBy(() -> new ClickParameters(1, Double.NaN, 32, 256, 3, -80))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("longestRepairMilliseconds");
    assertThat(ClickParameters.gentle().expectedFalseAlarmsPerMinute())
        .isCloseTo(0.2, within(1e-12));
  }

  private static double square(double v) {
    return v * v;
  }
}
