package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.PlaybackCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.playback.UnknownCurveException;
import org.groovemend.stage.Repair;
import org.junit.jupiter.api.Test;

/** Clicks of one invented side, captured flat and through curves that are not riaa. */
class CaptureCurveTest {
  private static final int RATE = 96_000;
  private static final int CLICKS = 80;
  private static final int SPACING = 9973;
  private static final ClickParameters P = ClickParameters.defaults();

  /** Shares of clicks found, dB by which the damage at the found ones shrinks. */
  private record Score(double recall, double gainDb, int repairs) {}

  private static BenchWav flat(long seed, boolean damaged) {
    Random random = new Random(seed);
    double[] x = new double[(CLICKS + 1) * SPACING];
    double low = 0;
    for (int n = 0; n < x.length; n++) {
      low += 0.02 * (random.nextGaussian() - low);
      double v = 0.02 * low + 2e-4 * random.nextGaussian();
      for (int k = 1; k <= 6; k++) {
        v += 0.02 / k * StrictMath.sin(2 * Math.PI * n * k * 196.3 / RATE + k);
      }
      x[n] = v;
    }
    if (damaged) {
      for (int i = 0; i < CLICKS; i++) {
        double size = 4e-3 * StrictMath.pow(10, 1.5 * random.nextDouble());
        double sign = random.nextBoolean() ? 1 : -1;
        int length = 5 + random.nextInt(20);
        for (int k = 0; k < length; k++) {
          double shape = StrictMath.exp(-4.0 * k / length) * StrictMath.cos(6.0 * k / length);
          x[SPACING * (i + 1) - SPACING / 2 + k] += sign * size * shape;
        }
      }
    }
    return new BenchWav(AudioFormat.pcm(RATE, 1, 24), new double[][] {x});
  }

  private static BenchWav through(BenchWav side, PlaybackCurve curve) {
    if (curve.isFlat()) {
      return side;
    }
    BenchWav out = side.copy();
    PlaybackFilter.design(curve, RATE)
        .forward()
        .fromRest(side.samples()[0], out.samples()[0], 0, side.samples()[0].length);
    return out;
  }

  /** Compared in the flat signal of both, so that all figures mean the same. */
  private static Score score(PlaybackCurve curve, CaptureCurve stated, long seed) throws Exception {
    BenchWav clean = through(flat(seed, false), curve);
    BenchWav damaged = through(flat(seed, true), curve);
    ClickStage stage = new ClickStage(P, ClickAnalyser.analyse(damaged, P, stated), stated);
    List<Repair> repairs =
        ClickBenchRunner.repairs(damaged, stage, stage.segmentation(damaged.format()));
    BenchWav restored = damaged.copy();
    ClickBenchRunner.apply(repairs, restored.samples());
    double[] before = back(damaged.samples()[0], clean.samples()[0], curve);
    double[] after = back(restored.samples()[0], clean.samples()[0], curve);
    int found = 0;
    double was = 0;
    double is = 0;
    for (int i = 0; i < CLICKS; i++) {
      int at = SPACING * (i + 1) - SPACING / 2;
      boolean here = repairs.stream().anyMatch(r -> r.start() <= at + 12 && r.start() > at - 100);
      if (here) {
        found++;
        for (int n = at - 50; n < at + SPACING / 2; n++) {
          was += before[n] * before[n];
          is += after[n] * after[n];
        }
      }
    }
    return new Score(found / (double) CLICKS, 10 * Math.log10(was / is), repairs.size());
  }

  private static double[] back(double[] x, double[] clean, PlaybackCurve curve) {
    double[] d = new double[x.length];
    for (int n = 0; n < d.length; n++) {
      d[n] = x[n] - clean[n];
    }
    if (curve.isFlat()) {
      return d;
    }
    double[] y = new double[d.length];
    PlaybackFilter.design(curve, RATE).inverse().fromRest(d, y, 0, d.length);
    return y;
  }

  @Test
  void asGoodAsFlat() throws Exception {
    for (long seed : new long[] {5101, 5102}) {
      Score flat = score(PlaybackCurve.FLAT, CaptureCurve.FLAT, seed);
      assertThat(flat.recall()).isGreaterThan(0.95);
      // nab has no shelf: what lies below 20 Hz of a click's tail stays, measured 1.0 dB
      for (String name : new String[] {"nab", "coarse-iec", "iec-amended", "us:-,-,50"}) {
        CaptureCurve captured = CaptureCurve.of(name);
        Score curved = score(captured.curve(), captured, seed);
        assertThat(curved.recall()).as(name).isGreaterThanOrEqualTo(flat.recall() - 0.02);
        assertThat(curved.repairs()).as(name).isBetween(flat.repairs() - 2, flat.repairs() + 2);
        assertThat(curved.gainDb())
            .as(name)
            .isGreaterThan(flat.gainDb() - (captured.curve().endless() ? 1.5 : 0.2));
      }
    }
  }

  /** The same side taken for flat: the tails stay. */
  @Test
  void theCurveMatters() throws Exception {
    CaptureCurve nab = CaptureCurve.of("nab");
    Score stated = score(nab.curve(), nab, 5103);
    Score asIfFlat = score(nab.curve(), CaptureCurve.FLAT, 5103);
    assertThat(asIfFlat.gainDb()).isLessThan(stated.gainDb() - 4);
  }

  @Test
  void wordsForIt() {
    assertThat(CaptureCurve.of("unknown")).isEqualTo(CaptureCurve.UNKNOWN);
    assertThat(CaptureCurve.of("RIAA")).isEqualTo(CaptureCurve.RIAA);
    assertThat(CaptureCurve.of("none")).isEqualTo(CaptureCurve.FLAT);
    assertThat(CaptureCurve.of("us:-,-,-").isFlat()).isTrue();
    assertThat(CaptureCurve.of("400/12").key()).isEqualTo("400/12");
    assertThatThrownBy(() -> CaptureCurve.of("riia")).isInstanceOf(UnknownCurveException.class);
  }
}
