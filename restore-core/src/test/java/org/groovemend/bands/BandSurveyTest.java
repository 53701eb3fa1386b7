package org.groovemend.bands;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.groovemend.simulate.BandedSides;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Test;

/** Gaps of invented sides whose truth is known; the page on bands has more of them. */
class BandSurveyTest {
  private static final int RATE = 22_050;

  /** Seeds that nothing was set on. Per cut; sides as a whole are told on the page. */
  @Test
  void cutsLieWhereTheNextBandIsFirstHeard() throws Exception {
    BandedSides maker = new BandedSides(77_000);
    int cuts = 0;
    int right = 0;
    int extra = 0;
    for (long seed = 77_000; seed < 77_016; seed++) {
      BandTrial trial = BandTrial.of(maker.side(seed, 0), seed);
      for (double error : trial.alone()) {
        cuts++;
        right += Math.abs(error) <= BandTrial.LIMIT_SECONDS ? 1 : 0;
      }
      extra += trial.extra();
    }
    assertThat(right / (double) cuts).isGreaterThanOrEqualTo(0.9);
    assertThat(extra).isLessThanOrEqualTo(1);
  }

  /** Two tones with a gap of noise; where tone is put into the gap, there is none. */
  @Test
  void aQuietNoteInTheGapIsHeard() throws Exception {
    BandSurvey bare = survey(tones(0));
    assertThat(bare.gaps()).hasSize(1);
    assertThat(bare.gaps().get(0).confidence()).isGreaterThan(0.9);
    assertThat(bare.gaps().get(0).endFrame() / (double) RATE).isBetween(13.95, 14.05);
    BandSurvey filled = survey(tones(0.004));
    assertThat(filled.gaps()).allMatch(gap -> gap.confidence() < 0.5);
    assertThat(BandPlanner.plan(filled, BandWish.found()).bands()).hasSize(1);
  }

  /** 3 s noise, 8 s tone, 3 s noise, 8 s tone, 3 s noise. */
  private static double[][] tones(double quiet) {
    Random random = new Random(5);
    double[][] x = new double[2][25 * RATE];
    for (int i = 0; i < x[0].length; i++) {
      double t = i / (double) RATE;
      double level = t > 3 && t < 11 || t > 14 && t < 22 ? 0.1 : t >= 11 && t <= 14 ? quiet : 0;
      double tone = level * StrictMath.sin(2 * Math.PI * 700 * t);
      x[0][i] = tone + 1e-3 * random.nextGaussian();
      x[1][i] = tone + 1e-3 * random.nextGaussian();
    }
    return x;
  }

  private static BandSurvey survey(double[][] x) throws Exception {
    return BandSurvey.of(ArrayRanges.of(RATE, x), done -> {});
  }

  @Test
  void sidesWithoutMusicOrWithoutLengthAreOnePieceAtMost() throws Exception {
    Random random = new Random(6);
    double[][] noise = new double[1][10 * RATE];
    for (int i = 0; i < noise[0].length; i++) {
      noise[0][i] = 0.01 * random.nextGaussian();
    }
    for (double[][] x : new double[][][] {noise, new double[1][10 * RATE], new double[1][50]}) {
      BandPlan plan = BandPlanner.plan(survey(x), BandWish.found());
      assertThat(plan.bands()).hasSize(1);
      assertThat(plan.pieces().stream().mapToLong(BandPiece::frames).sum()).isEqualTo(x[0].length);
    }
    assertThatThrownBy(() -> BandPlanner.plan(survey(new double[1][0]), BandWish.found()))
        .isInstanceOf(BandListException.class)
        .hasMessageContaining("no samples");
  }

  /** Any cutting into blocks gives the same levels. */
  @Test
  void blocksDoNotMatter() {
    double[][] x = tones(0);
    CellLevels whole = new CellLevels(ArrayRanges.of(RATE, x).format(), x[0].length);
    whole.accept(x, x[0].length);
    CellLevels parts = new CellLevels(ArrayRanges.of(RATE, x).format(), x[0].length);
    Random random = new Random(7);
    for (int at = 0; at < x[0].length; ) {
      int n = Math.min(x[0].length - at, 1 + random.nextInt(3000));
      parts.accept(
          new double[][] {
            java.util.Arrays.copyOfRange(x[0], at, at + n),
            java.util.Arrays.copyOfRange(x[1], at, at + n)
          },
          n);
      at += n;
    }
    assertThat(parts.cells()).isEqualTo(whole.cells());
    for (int r = 0; r < whole.rows(); r++) {
      for (int i = 0; i < whole.cells(); i++) {
        assertThat(parts.level(r, i)).isEqualTo(whole.level(r, i));
      }
    }
  }

  /** The noise that goes on has level and spectrum of what it was learned from, never silence. */
  @Test
  void grooveNoiseGoesOnAtItsLevel() throws Exception {
    Random random = new Random(8);
    double[][] x = new double[2][4 * RATE];
    double last = 0;
    for (int i = 0; i < x[0].length; i++) {
      double common = random.nextGaussian();
      last = 0.9 * last + 1e-3 * common;
      x[0][i] = last;
      x[1][i] = 0.5 * last + 1e-3 * random.nextGaussian();
    }
    double[][] made = new double[2][4 * RATE];
    new GrooveSynth(ArrayRanges.of(RATE, x), 0, x[0].length, 3).fill(made, 0, made[0].length);
    double[][] again = new double[2][4 * RATE];
    new GrooveSynth(ArrayRanges.of(RATE, x), 0, x[0].length, 3).fill(again, 0, again[0].length);
    assertThat(again).isDeepEqualTo(made);
    for (int lag = 0; lag < 3; lag++) {
      for (int a = 0; a < 2; a++) {
        for (int b = 0; b < 2; b++) {
          double scale = Math.sqrt(product(x, a, a, 0) * product(x, b, b, 0));
          assertThat(product(made, a, b, lag) / scale)
              .isCloseTo(
                  product(x, a, b, lag) / scale, org.assertj.core.api.Assertions.within(0.06));
        }
      }
    }
  }

  private static double product(double[][] x, int a, int b, int lag) {
    double sum = 0;
    for (int i = lag; i < x[0].length; i++) {
      sum += x[a][i] * x[b][i - lag];
    }
    return sum;
  }
}
