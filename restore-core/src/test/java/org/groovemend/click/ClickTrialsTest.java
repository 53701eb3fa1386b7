package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Repair;
import org.junit.jupiter.api.Test;

class ClickTrialsTest {
  private static final int RATE = 44_100;
  private static final AudioFormat STEREO = AudioFormat.pcm(RATE, 2, 24);
  private static final ClickParameters P = ClickParameters.defaults();

  private static BenchWav music(int seconds, long seed) {
    Random random = new Random(seed);
    double[][] x = new double[2][seconds * RATE];
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < x[c].length; n++) {
        double v = 0;
        for (int k = 1; k <= 5; k++) {
          v += 0.1 / k * StrictMath.sin(2 * Math.PI * n * k * (220 + 30 * c) / RATE + k * c);
        }
        x[c][n] = v + 3e-4 * random.nextGaussian();
      }
    }
    return new BenchWav(STEREO, x);
  }

  private static final double[] PULSE = {0.3, 1, 0.7, -0.4, -0.5, 0.2};

  private static void click(double[] x, int at, double size) {
    for (int i = 0; i < PULSE.length; i++) {
      x[at + i] += size * PULSE[i];
    }
  }

  private static ClickRecall recall(BenchWav wav) throws Exception {
    return ClickAnalyser.analyse(wav, P, CaptureCurve.FLAT).recall();
  }

  @Test
  void theShareFoundRisesFromNoneToAllWithTheSize() throws Exception {
    List<ClickRecall.Size> sizes = recall(music(4, 1)).sizes();
    assertThat(sizes.get(0).found()).isZero();
    assertThat(sizes.get(sizes.size() - 1).share()).isGreaterThan(0.9);
    for (ClickRecall.Size s : sizes) {
      assertThat(s.injected()).isGreaterThan(12);
      assertThat(s.share()).isBetween(s.low(), s.high());
    }
  }

  @Test
  void aVeryShortSideIsNotTried() throws Exception {
    BenchWav wav = music(1, 1);
    double[][] brief = {
      java.util.Arrays.copyOf(wav.samples()[0], 5000),
      java.util.Arrays.copyOf(wav.samples()[1], 5000)
    };
    assertThat(recall(new BenchWav(STEREO, brief)).sizes()).isEmpty();
  }

  @Test
  void aDetectorThatAcceptsNothingFindsNone() throws Exception {
    BenchWav wav = music(4, 1);
    ClickGeometry g = ClickGeometry.of(P, RATE);
    RepairDomain domain = RepairDomain.of(CaptureCurve.FLAT, RATE);
    ClickCalibration own = ClickAnalyser.analyse(wav, P, CaptureCurve.FLAT);
    ClickCalibration deaf =
        new ClickCalibration(
            own.domain(),
            List.of(1e9, 1e9),
            own.tailStarts(),
            own.tailSpreads(),
            own.tailRatesPerMinute(),
            own.residualScales(),
            0,
            4,
            own.alarms(),
            null,
            null);
    SampledPieces pieces = new SampledPieces(wav.frames(), g, RATE);
    List<List<Occupied>> none = new ArrayList<>();
    for (int i = 0; i < pieces.count(); i++) {
      none.add(List.of());
    }
    ClickRecall recall =
        new ClickTrials(
                new ClickDetector(g, domain, STEREO),
                new ClickDecision(deaf, g, RATE),
                g,
                domain.floor(STEREO.quantumStep()))
            .run(wav, pieces, none, List.of());
    assertThat(recall.sizes()).isNotEmpty().allMatch(s -> s.found() == 0 && s.injected() > 12);
  }

  @Test
  void shapesComeFromTheSideWhereItShowsThem() throws Exception {
    assertThat(recall(music(4, 2)).shapes()).isEqualTo(ClickRecall.STANDARD);
    BenchWav worn = music(4, 2);
    for (int i = 0; i < 20; i++) {
      click(worn.samples()[i % 2], 5000 + 8111 * i, 0.1);
    }
    ClickRecall recall = recall(worn);
    assertThat(recall.shapes()).isEqualTo(ClickRecall.OF_SIDE);
    assertThat(recall.shapeCount()).isEqualTo(20);
  }

  @Test
  void aShapeIsThatOfTheClickInTheWallThatWasHit() throws Exception {
    BenchWav worn = music(2, 3);
    click(worn.samples()[1], 40_000, 0.2);
    ClickGeometry g = ClickGeometry.of(P, RATE);
    ClickDetector detector = new ClickDetector(g, RepairDomain.of(CaptureCurve.FLAT, RATE), STEREO);
    detector.load(new SampledPieces(worn.frames(), g, RATE).window(worn, 0));
    ShapeSample shapes = new ShapeSample();
    shapes.add(
        List.of(detector.candidates(0, 0, 60_000), detector.candidates(1, 0, 60_000)), detector);
    assertThat(shapes.enough()).isFalse();
    ClickPulse pulse = shapes.shapes().get(0);
    assertThat(pulse.walls()[0]).containsOnly(0);
    double peak = 0;
    for (double v : pulse.walls()[1]) {
      peak = Math.max(peak, v);
    }
    // the fill is off by the noise floor, 3e-4, times a few
    assertThat(peak).isCloseTo(0.2, within(0.01));
  }

  @Test
  void theSideItselfIsLeftAsItWasAndTheResultIsTheSameAgain() throws Exception {
    BenchWav wav = music(3, 4);
    BenchWav before = wav.copy();
    assertThat(recall(wav)).isEqualTo(recall(before));
    assertThat(wav.samples()).isDeepEqualTo(before.samples());
  }

  /** White noise of deviation s: the best predictor is none, and the size is (peak / s) squared. */
  @Test
  void sizeInWhiteNoiseIsEnergyOverVariance() {
    Random random = new Random(5);
    double[] x = new double[8192];
    for (int n = 0; n < x.length; n++) {
      x[n] = 0.01 * random.nextGaussian();
    }
    LocalError error = new LocalError(ClickGeometry.of(P, RATE));
    assertThat(error.fit(x, 4096, 1e-9)).isTrue();
    // a median of 512 values tells the variance to about 15 per cent
    assertThat(error.ratio(new double[] {0.3, 0.4})).isCloseTo(2500, within(700.0));
    assertThat(error.fit(new double[8192], 4096, 1e-9)).isFalse();
  }

  /**
   * Clicks of a known size in the very sound: predicted and true misses agree within a factor 2.
   */
  @Test
  void predictedRecallIsTrueOfClicksThatWereThere() throws Exception {
    BenchWav wav = music(8, 6);
    ClickGeometry g = ClickGeometry.of(P, RATE);
    LocalError error = new LocalError(g);
    Random random = new Random(7);
    int count = 60;
    List<Integer> places = new ArrayList<>();
    BenchWav damaged = wav.copy();
    for (int i = 0; i < count; i++) {
      int at = 6000 + i * 5600 + random.nextInt(500);
      places.add(at);
      assertThat(error.fit(wav.samples()[0], at, 1e-9)).isTrue();
      double unit = Math.sqrt(error.ratio(PULSE));
      // 12 to 42 dB, evenly
      double size = StrictMath.pow(10, (12 + 30.0 * i / count) / 20) / unit;
      click(damaged.samples()[0], at, size);
    }
    ClickCalibration calibration = ClickAnalyser.analyse(damaged, P, CaptureCurve.FLAT);
    ClickStage stage = new ClickStage(P, calibration, CaptureCurve.FLAT);
    List<Repair> repairs =
        ClickBenchRunner.repairs(damaged, stage, stage.segmentation(damaged.format()));
    int missed = 0;
    double predicted = 0;
    for (int i = 0; i < count; i++) {
      int at = places.get(i);
      missed +=
          repairs.stream().noneMatch(r -> r.channel() == 0 && r.start() < at + 6 && r.end() > at)
              ? 1
              : 0;
      predicted += 1 - between(calibration.recall().sizes(), 12 + 30.0 * i / count);
    }
    assertThat(missed).isPositive();
    assertThat(predicted).isBetween(missed / 2.0, missed * 2.0);
  }

  private static double between(List<ClickRecall.Size> sizes, double decibels) {
    for (int i = 1; i < sizes.size(); i++) {
      ClickRecall.Size a = sizes.get(i - 1);
      ClickRecall.Size b = sizes.get(i);
      if (decibels <= b.decibels()) {
        double t = (decibels - a.decibels()) / (b.decibels() - a.decibels());
        return a.share() + t * (b.share() - a.share());
      }
    }
    return 1;
  }
}
