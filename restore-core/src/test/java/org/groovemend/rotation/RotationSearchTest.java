package org.groovemend.rotation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RotationSearchTest {

  private static InventedTicks scratched(long seed, double rpm) {
    double turn = 60 / rpm;
    return new InventedTicks(seed, 60)
        .strewn(5)
        .scratch(3.1, turn, 18)
        .scratch(11.37, turn * 1.0008, 14)
        .scratch(21.9, turn * 0.9993, 12);
  }

  @ParameterizedTest
  @ValueSource(doubles = {100.0 / 3, 45, 78.26, 71, 16.67})
  void speedIsFoundFromScratches(double rpm) {
    for (long seed = 0; seed < 10; seed++) {
      RotationFinding finding = RotationSearch.of(scratched(seed, rpm).gathered());
      assertThat(finding.found()).as("seed %d", seed).isTrue();
      // the scratches drift by up to 0.08 % of a turn
      assertThat(finding.rpm()).isCloseTo(rpm, within(0.001 * rpm));
      assertThat(finding.turnSeconds()).isCloseTo(60 / rpm, within(0.001 * 60 / rpm));
      assertThat(finding.chance()).isLessThan(1e-6);
    }
  }

  @Test
  void scratchesAreToldWithPlaceAngleAndDrift() {
    double turn = 1.8;
    RotationFinding finding =
        RotationSearch.of(
            new InventedTicks(3, 60)
                .strewn(4)
                .scratch(10.0, turn, 20)
                .scratch(12.4, turn, 16)
                .scratch(20.35, turn + 0.002, 12)
                .gathered());
    assertThat(finding.scratches()).hasSize(3);
    Scratch first = finding.scratches().get(0);
    assertThat(first.firstFrame() / 48_000.0).isCloseTo(10.0, within(1e-3));
    assertThat(first.turns()).isBetween(17, 19);
    assertThat(first.frames()).hasSizeBetween(14, 20).isSorted();
    assertThat(first.frames().get(0)).isEqualTo(first.firstFrame());
    // 10 s are 5.555 turns; 0.02 % of error of the period is 0.4 degrees after five turns
    assertThat(first.angleDegrees()).isCloseTo(200, within(1.0));
    assertThat(first.driftDegreesPerTurn()).isCloseTo(0, within(0.02));
    Scratch slanting = finding.scratches().get(2);
    // 2 ms of 1.8 s
    assertThat(slanting.driftDegreesPerTurn()).isCloseTo(0.4, within(0.03));
  }

  @Test
  void ticksAtRandomClaimNoSpeed() {
    int claimed = 0;
    double[] below = new double[2];
    for (long seed = 0; seed < 300; seed++) {
      double chance =
          RotationSearch.of(new InventedTicks(seed, 40).strewn(3 + seed % 12).gathered()).chance();
      claimed += chance <= RotationFinding.MOST_CHANCE ? 1 : 0;
      below[0] += chance <= 0.5 ? 1 : 0;
      below[1] += chance <= 0.05 ? 1 : 0;
    }
    // 0.3 expected at most; more than 2 of a Poisson variable with that mean: 0.4 %
    assertThat(claimed).isLessThanOrEqualTo(2);
    // the chance is told as an upper bound; three standard deviations of a binomial above it
    assertThat(below[0]).isLessThan(150 + 26);
    assertThat(below[1]).isBetween(1.0, 15 + 11.4);
  }

  @Test
  void shakenScratchesClaimNoSpeed() {
    for (long seed = 0; seed < 100; seed++) {
      RotationFinding finding = RotationSearch.of(scratched(seed, 33.3).shaken().gathered());
      assertThat(finding.found()).as("seed %d", seed).isFalse();
      assertThat(finding.rpm()).isNaN();
      assertThat(finding.scratches()).isEmpty();
      assertThat(finding.speedInWords()).isEqualTo("not found");
    }
  }

  @Test
  void denseDamageHidesAScratchRatherThanInventsOne() {
    assertThat(
            RotationSearch.of(new InventedTicks(1, 40).strewn(300).scratch(3, 1.8, 12).gathered())
                .found())
        .isFalse();
  }

  @Test
  void strictTimeIsToldAsPossiblyTheBeat() {
    // 110 beats a minute; the beat itself is faster than any disc
    RotationFinding finding =
        RotationSearch.of(
            new InventedTicks(1, 60).strewn(2).scratch(0.3, 60 / 110.0, 100).gathered());
    assertThat(finding.found()).isTrue();
    assertThat(finding.rpm()).isCloseTo(55, within(0.1));
    assertThat(finding.speedInWords()).contains("it may be the beat of the music");
  }

  @Test
  void statedSpeedFindsItsScratchesAndNoOthers() {
    assertThat(RotationSearch.at(scratched(5, 100.0 / 3).gathered(), 100.0 / 3).scratches())
        .hasSize(3);
    assertThat(RotationSearch.at(scratched(5, 100.0 / 3).gathered(), 45).found()).isFalse();
    assertThatThrownBy(() -> RotationSearch.at(scratched(5, 45).gathered(), 500))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("500.0");
  }

  @Test
  void anglesAreThoseOfTheStatedSpeed() {
    RotationFinding stated =
        RotationSearch.at(
            new InventedTicks(3, 60).strewn(4).scratch(10.0, 1.8, 20).gathered(), 33.4);
    assertThat(stated.rpm()).isCloseTo(100.0 / 3, within(0.01));
    Scratch scratch = stated.scratches().get(0);
    double turns = scratch.firstFrame() / 48_000.0 * 33.4 / 60;
    assertThat(scratch.angleDegrees()).isCloseTo(360 * (turns % 1), within(1e-6));
    // a turn takes 0.2 % longer than was stated
    assertThat(scratch.driftDegreesPerTurn()).isCloseTo(0.72, within(0.03));
  }

  @Test
  void noTicksAtAllAreNoSpeed() {
    RotationFinding finding = RotationSearch.of(new TickGatherer(44_100));
    assertThat(finding.found()).isFalse();
    assertThat(finding.places()).isZero();
    assertThat(finding.chanceInWords()).isEqualTo("no more than chance");
  }

  /** The tail of the Poisson distribution, summed term by term. */
  @Test
  void poissonTailIsBoundedFromAboveAndClosely() {
    for (double mean : new double[] {1e-3, 0.1, 0.9, 2.5}) {
      for (int count = 3; count < 12; count++) {
        double term = Math.exp(-mean);
        double tail = 0;
        for (int k = 0; k < 200; k++) {
          tail += k >= count ? term : 0;
          term *= mean / (k + 1);
        }
        double bound = Math.exp(Stretch.logOfAtLeast(count, mean));
        assertThat(bound).isBetween(tail * (1 - 1e-9), tail * 1.6);
      }
    }
    assertThat(Stretch.logOfAtLeast(2, 3)).isZero();
  }
}
