package org.groovemend.walls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.simulate.TwoWalls;
import org.groovemend.simulate.TwoWalls.Groove;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.StageNotPossibleException;
import org.groovemend.stage.StageNote;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Tag("long")
class MonoStageTest {
  private static final int RATE = 44_100;

  private static WallFinding found(double[][] x, int rate) throws IOException {
    return WallAnalyser.analyse(ArrayRanges.of(rate, x));
  }

  private static double[][] mono(MonoParameters parameters, double[][] x, int rate)
      throws IOException {
    return Treated.whole(MonoStage.of(parameters, found(x, rate)), rate, x);
  }

  /** What the music should be: halfway between the walls in time and level. */
  private static double[] expected(TwoWalls walls, Groove groove) {
    double[] half =
        TwoWalls.of(walls.source(), Groove.equal(-300).withDelay(groove.delayFrames() / 2), 1)
            .music()[1];
    double gain = (1 + Math.pow(10, groove.balanceDb() / 20)) / 2;
    return Arrays.stream(half).map(v -> v * gain).toArray();
  }

  /**
   * Noise against the least that a weighting can leave, (s1 s2 - c^2) / (s1 + s2 - 2 c) for
   * variances s1, s2 and covariance c (Bates and Granger 1969); half of either for equal
   * independent noise: 3.01 dB.
   */
  @ParameterizedTest
  @CsvSource({
    "-20, -20, 0, 0, 0",
    "-20, -20, 0, 0.4, 0",
    "-40, -40, 0, -1.7, -0.7",
    "-20, -26, 0, 0.4, 0",
    "-30, -20, 0, 0.4, 2",
    "-30, -36, 0.4, 0, 0",
    "-26, -26, -0.5, 0, 0",
    "-6, -12, 0, 0.2, 0"
  })
  void noiseGoesDownAsFarAsTheoryAllows(
      double leftDb, double rightDb, double alike, double delay, double balanceDb)
      throws IOException {
    Groove groove =
        Groove.equal(-20).withNoise(leftDb, rightDb, alike).withDelay(delay).withBalance(balanceDb);
    TwoWalls walls = TwoWalls.tune(groove, 20, RATE, 5);
    double[][] out = mono(MonoParameters.defaults(), walls.samples(), RATE);
    assertThat(out[1]).isEqualTo(out[0]);
    double gain = 20 * Math.log10((1 + Math.pow(10, balanceDb / 20)) / 2);
    double noise = Treated.differenceDb(out[0], expected(walls, groove), RATE) - gain;
    double left = Treated.differenceDb(walls.samples()[0], walls.music()[0], RATE);
    double right = Treated.differenceDb(walls.samples()[1], walls.music()[1], RATE) - balanceDb;
    double s1 = Math.pow(10, left / 10);
    double s2 = Math.pow(10, right / 10);
    double c = alike * Math.sqrt(s1 * s2);
    double least = 10 * Math.log10((s1 * s2 - c * c) / (s1 + s2 - 2 * c));
    assertThat(noise - least).isBetween(-0.1, 0.15);
    if (leftDb == rightDb && alike == 0) {
      assertThat(Math.min(left, right) - noise).isGreaterThan(2.5);
    }
  }

  /**
   * One wall far worse than the other: a weight that is wrong by 0.02 in passages of a second costs
   * 0.2 dB, so the better wall alone is not quite reached. With every octave left to itself it was
   * 0.5 dB, since those whose music hides the noise took half of either wall.
   */
  @ParameterizedTest
  @CsvSource({"-40, -20, 31", "-20, -40, 32", "-38, -18, 33"})
  void aWallFarWorseHardlyHarms(double leftDb, double rightDb, int seed) throws IOException {
    Groove groove = Groove.equal(-20).withNoise(leftDb, rightDb, 0);
    TwoWalls walls = TwoWalls.tune(groove, 20, RATE, seed);
    double[] out = mono(MonoParameters.defaults(), walls.samples(), RATE)[0];
    double noise = Treated.differenceDb(out, expected(walls, groove), RATE);
    double left = Treated.differenceDb(walls.samples()[0], walls.music()[0], RATE);
    double right = Treated.differenceDb(walls.samples()[1], walls.music()[1], RATE);
    assertThat(noise - Math.min(left, right)).isLessThan(0.3);
  }

  /** Noise that changes walls and octaves from moment to moment, which no fixed weights follow. */
  @Test
  void weightsFollowTheWallThatIsWorse() throws IOException {
    TwoWalls walls = TwoWalls.tune(Groove.equal(-60), 24, RATE, 6);
    double[][] x = {walls.samples()[0].clone(), walls.samples()[1].clone()};
    java.util.Random random = new java.util.Random(7);
    double previous = 0;
    for (int i = 0; i < x[0].length; i++) {
      boolean leftWorse = i / (6 * RATE) % 2 == 0;
      double white = random.nextGaussian();
      // treble noise on the worse wall
      x[leftWorse ? 0 : 1][i] += 0.01 * (white - previous);
      x[leftWorse ? 1 : 0][i] += 0.001 * random.nextGaussian();
      previous = white;
    }
    double[] music = walls.source();
    double local = Treated.differenceDb(mono(MonoParameters.defaults(), x, RATE)[0], music, RATE);
    double equal = Treated.differenceDb(mono(MonoParameters.gentle(), x, RATE)[0], music, RATE);
    assertThat(equal - local).isGreaterThan(9);
  }

  /** No comb: a sweep keeps its level to 20 kHz, whatever the delay between the walls. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 0.5, -2.3, 9.6})
  void aSweepKeepsItsLevel(double delay) throws IOException {
    int seconds = 10;
    double[] sweep = new double[seconds * RATE];
    double rise = Math.log(20_500 / 40.0) / sweep.length;
    for (int i = 0; i < sweep.length; i++) {
      sweep[i] = Math.sin(2 * Math.PI * 40 / RATE * (Math.exp(rise * i) - 1) / rise);
    }
    TwoWalls walls =
        TwoWalls.of(sweep, Groove.equal(-40).withNoise(-34, -46, 0).withDelay(delay), 8);
    for (MonoParameters p : List.of(MonoParameters.defaults(), MonoParameters.gentle())) {
      double[] out = mono(p, walls.samples(), RATE)[0];
      double most = 0;
      double summed = 0;
      for (double hertz = 50; hertz < 20_000; hertz *= 1.05) {
        int at = (int) (Math.log(hertz / 40) / rise);
        int reach = (int) (0.02 / rise / 2);
        double before = rms(walls.source(), at, reach);
        most = Math.max(most, Math.abs(20 * Math.log10(rms(out, at, reach) / before)));
        double plain = 0;
        for (int i = at - reach; i < at + reach; i++) {
          double v = (walls.samples()[0][i] + walls.samples()[1][i]) / 2;
          plain += v * v / (2 * reach);
        }
        summed = Math.max(summed, Math.abs(20 * Math.log10(Math.sqrt(plain) / before)));
      }
      assertThat(most).isLessThan(0.05);
      // the sum of walls that are apart shows that the test can fail
      assertThat(Math.abs(delay) < 1 || summed > 5).isTrue();
    }
  }

  private static double rms(double[] x, int at, int reach) {
    double sum = 0;
    for (int i = at - reach; i < at + reach; i++) {
      sum += x[i] * x[i];
    }
    return Math.sqrt(sum / (2 * reach));
  }

  @Test
  void opposedWallsDoNotCancel() throws IOException {
    Groove groove = Groove.equal(-30).withDelay(0.6).reversed();
    TwoWalls walls = TwoWalls.tune(groove, 10, RATE, 9);
    double[] out = mono(MonoParameters.defaults(), walls.samples(), RATE)[0];
    double noise = Treated.differenceDb(out, expected(walls, groove), RATE);
    double left = Treated.differenceDb(walls.samples()[0], walls.music()[0], RATE);
    assertThat(left - noise).isGreaterThan(2.5);
  }

  @Test
  void alignedWallsStayTwo() throws IOException {
    Groove groove = Groove.equal(-40).withDelay(1.4).withBalance(-2).reversed();
    TwoWalls walls = TwoWalls.tune(groove, 8, RATE, 10);
    double[][] out =
        mono(MonoParameters.defaults().with(MonoParameters.Result.ALIGNED), walls.samples(), RATE);
    double[] music = expected(walls, groove);
    for (double[] wall : out) {
      // noise of a wall at -40 dB re 0.1, nothing of the music worth mention
      assertThat(Treated.differenceDb(wall, music, RATE)).isBetween(-62.0, -58.0);
    }
    assertThat(out[0]).isNotEqualTo(out[1]);
  }

  @Test
  void equalWallsComeOutWithoutAnyShiftBitForBit() throws IOException {
    double[] wall = TwoWalls.tune(Groove.equal(-20), 4, RATE, 11).samples()[0];
    double[][] out = mono(MonoParameters.defaults(), new double[][] {wall, wall}, RATE);
    assertThat(out[0]).isEqualTo(wall);
  }

  @Test
  void everyPassageTellsItsWeightsOnce() throws IOException {
    Groove groove = Groove.equal(-20).withNoise(-20, -40, 0);
    TwoWalls walls = TwoWalls.tune(groove, 20, RATE, 12);
    List<StageNote> notes = new ArrayList<>();
    MonoStage stage = MonoStage.of(MonoParameters.defaults(), found(walls.samples(), RATE));
    Treated.whole(stage, RATE, walls.samples(), notes);
    long step = notes.get(1).frame() - notes.get(0).frame();
    assertThat(step).isBetween((long) (0.95 * RATE), (long) (1.05 * RATE));
    for (int i = 0; i < notes.size(); i++) {
      assertThat(notes.get(i).frame()).isEqualTo(i * step);
    }
    assertThat(notes.size()).isEqualTo((int) ((walls.source().length - 1) / step) + 1);
    // a hundredth of the power: the left wall gets a hundredth
    double[] mean = new double[notes.get(0).values().length];
    for (StageNote note : notes) {
      for (int b = 0; b < mean.length; b++) {
        assertThat(note.values()[b]).isBetween(0.0, 1.0);
        mean[b] += note.values()[b] / notes.size();
      }
    }
    assertThat(mean[9]).isBetween(0.0, 0.03);
  }

  @Test
  void stereoSilenceOneChannelAndADeadWallAreRefusedInASentence() throws IOException {
    MonoParameters usual = MonoParameters.defaults();
    double[][] stereo = RestraintPiece.DRUM_KIT.play(RATE, 8, 1);
    refused(usual, stereo, "when: always");
    double[][] dead = {
      TwoWalls.tune(Groove.equal(-30), 4, RATE, 4).samples()[0], new double[4 * RATE]
    };
    refused(usual, dead, "the left wall sounds");
    refused(usual.with(MonoParameters.When.ALWAYS), new double[2][RATE], "silent");
    refused(usual.with(MonoParameters.When.ALWAYS), new double[1][RATE], "1 channel");
    double[][] insisted = mono(usual.with(MonoParameters.When.ALWAYS), stereo, RATE);
    assertThat(insisted[1]).isEqualTo(insisted[0]);
  }

  private static void refused(MonoParameters parameters, double[][] x, String words)
      throws IOException {
    WallFinding found = found(x, RATE);
    assertThatThrownBy(() -> MonoStage.of(parameters, found))
        .isInstanceOf(StageNotPossibleException.class)
        .hasMessageStartingWith("the mono stage")
        .hasMessageContaining(words);
  }

  @Test
  void insistingOnADeadWallGivesTheOther() throws IOException {
    double[] wall = TwoWalls.tune(Groove.equal(-30), 6, RATE, 4).samples()[1];
    double[][] out =
        mono(
            MonoParameters.defaults().with(MonoParameters.When.ALWAYS),
            new double[][] {new double[wall.length], wall},
            RATE);
    assertThat(Treated.differenceDb(out[0], wall, RATE)).isLessThan(-120);
    assertThat(out[1]).isEqualTo(out[0]);
  }
}
