package org.groovemend.walls;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Arrays;
import java.util.Random;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.simulate.RestraintPiece;
import org.groovemend.simulate.TwoWalls;
import org.groovemend.simulate.TwoWalls.Groove;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class WallAnalyserTest {
  private static final int RATE = 44_100;

  private static WallFinding found(double[][] x) throws IOException {
    return WallAnalyser.analyse(ArrayRanges.of(RATE, x));
  }

  @ParameterizedTest
  @CsvSource({"-10, 0", "-20, -0.7", "-20, 3", "-40, -6"})
  void balanceIsThatOfTheMusicNotOfTheNoise(double noiseDb, double balanceDb) throws IOException {
    // ten times as much noise on one wall, which would tip a balance of levels
    Groove groove =
        Groove.equal(noiseDb).withNoise(noiseDb, noiseDb - 10, 0).withBalance(balanceDb);
    WallFinding found = found(TwoWalls.tune(groove, 20, RATE, 3).samples());
    assertThat(found.verdict()).isEqualTo(Verdict.LATERAL);
    assertThat(Math.abs(found.balanceDb() - balanceDb)).isLessThan(0.1);
    assertThat(Math.abs(found.balanceDb() - balanceDb))
        .isLessThan(Math.max(0.02, 4 * found.balanceDoubtDb()));
  }

  @Test
  void aReversedLeadIsToldFromAVerticalGrooveByRumble() throws IOException {
    double[][] x = bareThenMusic(Groove.equal(-30).reversed());
    assertThat(found(x).verdict()).isEqualTo(Verdict.OPPOSED);
    assertThat(found(x).correlation()).isLessThan(-0.9);
    double[] rumble = rumble(x[0].length);
    // a stylus that moves up and down gives rightly wired walls opposite signs
    assertThat(found(added(x, rumble, 1, -1)).verdict()).isEqualTo(Verdict.VERTICAL);
    assertThat(found(added(x, rumble, 1, 1)).verdict()).isEqualTo(Verdict.LATERAL_REVERSED);
  }

  @ParameterizedTest
  @EnumSource(RestraintPiece.class)
  void stereoIsNotTakenForMono(RestraintPiece piece) throws IOException {
    WallFinding found = found(piece.play(RATE, 12, 2));
    assertThat(found.verdict().mono()).as(found.reason()).isFalse();
    assertThat(found.leftIntoRightDb()).isNotPositive();
  }

  @Test
  void oneWallThatSoundsIsSaidToBeAlone() throws IOException {
    double[][] x = TwoWalls.tune(Groove.equal(-30), 5, RATE, 4).samples();
    double[][] dead = {x[0], new double[x[0].length]};
    WallFinding left = found(dead);
    assertThat(left.verdict()).isEqualTo(Verdict.ONE_WALL);
    assertThat(left.reason()).contains("left wall").contains("infinitely far");
    Random random = new Random(1);
    double[] noise = new double[x[0].length];
    Arrays.setAll(noise, i -> 0.003 * random.nextGaussian());
    WallFinding right = found(new double[][] {noise, x[1]});
    assertThat(right.verdict()).isEqualTo(Verdict.ONE_WALL);
    assertThat(right.reason()).contains("right wall");
    assertThat(right.delay().largest()).isZero();
  }

  @Test
  void silenceOneChannelAndAMomentAreSaidToBeSo() throws IOException {
    assertThat(found(new double[2][RATE]).verdict()).isEqualTo(Verdict.SILENT);
    assertThat(found(new double[1][RATE]).verdict()).isEqualTo(Verdict.ONE_CHANNEL);
    assertThat(found(new double[1][RATE]).reason()).contains("1 channel,");
    assertThat(found(new double[2][100]).verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(found(new double[2][0]).verdict()).isEqualTo(Verdict.UNDECIDED);
    double[][] word = TwoWalls.tune(Groove.equal(-20), 0.2, RATE, 5).samples();
    assertThat(found(word).reason()).isNotBlank();
  }

  @Test
  void noiseOnBothWallsIsNoMonoGroove() throws IOException {
    Random random = new Random(2);
    double[][] x = new double[2][5 * RATE];
    for (double[] wall : x) {
      Arrays.setAll(wall, i -> 0.01 * random.nextGaussian());
    }
    assertThat(found(x).verdict().mono()).as(found(x).reason()).isFalse();
  }

  @Test
  void exchangedWallsAreTheSameFindingMirrored() throws IOException {
    Groove groove = Groove.equal(-20).withNoise(-20, -26, 0.3).withDelay(0.8).withBalance(-1.5);
    double[][] x = TwoWalls.tune(groove, 6, RATE, 6).samples();
    WallFinding straight = found(x);
    WallFinding crossed = found(new double[][] {x[1], x[0]});
    assertThat(crossed.delay().samples()).isEqualTo(-straight.delay().samples());
    assertThat(crossed.balanceDb()).isEqualTo(-straight.balanceDb());
    for (int b = 0; b < straight.bands().size(); b++) {
      assertThat(crossed.bands().get(b).balanceDb())
          .isEqualTo(-straight.bands().get(b).balanceDb());
    }
  }

  @Test
  void memoryOfALongSideDoesNotGrow() {
    WallSlots slots = new WallSlots(1);
    OctaveBands octaves = new OctaveBands(1, 4, 1);
    CrossSpectrum second = new CrossSpectrum(6);
    double[] shared = {0, 0, 0, 0};
    int seconds = 5000;
    for (int i = 0; i < seconds; i++) {
      Arrays.fill(second.first(), i);
      slots.add(second, shared, octaves);
    }
    slots.finish();
    assertThat(slots.count()).isBetween(WallSlots.MOST / 2, WallSlots.MOST);
    int lines = octaves.firstBin(1) - octaves.firstBin(0);
    double lost = lines * (seconds * (seconds - 1) / 2.0) - slots.all(0, 1, WallSlots.LEFT);
    // no more than the last slot, which is not full
    assertThat(lost).isBetween(0.0, 8.0 * lines * seconds);
  }

  private static double[][] bareThenMusic(Groove groove) {
    double[][] music = TwoWalls.tune(groove, 12, RATE, 5).samples();
    double[][] x = new double[2][music[0].length + 4 * RATE];
    Random random = new Random(3);
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < 4 * RATE; i++) {
        x[c][i] = 1e-3 * random.nextGaussian();
      }
      System.arraycopy(music[c], 0, x[c], 4 * RATE, music[c].length);
    }
    return x;
  }

  private static double[] rumble(int n) {
    Random random = new Random(4);
    double[] x = new double[n];
    double low = 0;
    for (int i = 0; i < n; i++) {
      low += 2 * Math.PI * 40 / RATE * (random.nextGaussian() - low);
      x[i] = 0.05 * low;
    }
    return x;
  }

  private static double[][] added(double[][] x, double[] rumble, double left, double right) {
    double[][] y = {x[0].clone(), x[1].clone()};
    for (int i = 0; i < rumble.length; i++) {
      y[0][i] += left * rumble[i];
      y[1][i] += right * rumble[i];
    }
    return y;
  }
}
