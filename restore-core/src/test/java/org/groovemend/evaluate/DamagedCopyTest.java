package org.groovemend.evaluate;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.groovemend.simulate.DamageKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class DamagedCopyTest {
  private static final Sound SOUND = Examples.music(4, 1);

  @Test
  void aCleanCopyIsTheSound() {
    DamagedCopy copy = DamagedCopy.of(SOUND, Scenario.CLEAN, 1);
    assertThat(copy.damaged()).isDeepEqualTo(SOUND.samples());
    assertThat(copy.truth()).isEmpty();
  }

  /** What differs lies in the ranges, but for tails below 2 per cent of their pulse. */
  @ParameterizedTest
  @EnumSource(names = {"CLICKS", "CRACKLE", "THUMPS"})
  void nearlyAllOfTheDamageLiesInTheRanges(Scenario scenario) {
    DamagedCopy copy = DamagedCopy.of(SOUND, scenario, 1);
    boolean[][] bad = new boolean[2][SOUND.frames()];
    for (TrueRange t : copy.truth()) {
      Arrays.fill(bad[t.channel()], t.start(), t.end(), true);
    }
    double inside = 0;
    double outside = 0;
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < SOUND.frames(); n++) {
        double d = copy.damaged()[c][n] - copy.sound()[c][n];
        if (bad[c][n]) {
          inside += d * d;
        } else {
          outside += d * d;
        }
      }
    }
    assertThat(copy.truth()).hasSizeGreaterThan(3);
    assertThat(inside).isPositive();
    assertThat(outside).isLessThan(0.01 * inside);
  }

  /** Bare groove with hum in front, the first line 20 dB below the music's level. */
  @Test
  void humIsThereFromTheFirstSampleOn() {
    DamagedCopy copy = DamagedCopy.of(SOUND, Scenario.HUM, 1);
    double square = 0;
    for (int n = 0; n < copy.leadFrames(); n++) {
      square += copy.damaged()[0][n] * copy.damaged()[0][n] / copy.leadFrames();
    }
    double db = 10 * Math.log10(square) - 20 * Math.log10(Levels.rms(SOUND.samples()));
    // one line of -20 dB amplitude has -23 dB; the third, fifth and so on add some 3 dB
    assertThat(db).isBetween(-23.0, -18.0);
    assertThat(copy.truth()).isEmpty();
  }

  @Test
  void sameSeedSameDamageOtherSeedOther() {
    DamagedCopy one = DamagedCopy.of(SOUND, Scenario.WORN, 1);
    DamagedCopy again = DamagedCopy.of(SOUND, Scenario.WORN, 1);
    DamagedCopy other = DamagedCopy.of(SOUND, Scenario.WORN, 2);
    assertThat(again.damaged()).isDeepEqualTo(one.damaged());
    assertThat(again.truth()).isEqualTo(one.truth());
    assertThat(Arrays.deepEquals(other.damaged(), one.damaged())).isFalse();
  }

  /** 33 1/3 turns a minute: a scratch comes back after 1.8 s. */
  @Test
  void aScratchComesBackOnceATurn() {
    DamagedCopy copy = DamagedCopy.of(Examples.music(8, 2), Scenario.CLICKS, 3);
    int[] starts =
        copy.truth().stream()
            .filter(t -> t.kind() == DamageKind.SCRATCH && t.channel() == 0)
            .mapToInt(TrueRange::start)
            .sorted()
            .toArray();
    assertThat(starts.length).isGreaterThan(5);
    for (int i = 2; i < starts.length; i++) {
      // two scratches take turns; one is oblique, half a thousandth and more of a turn each time
      assertThat((starts[i] - starts[i - 2]) / (double) Examples.RATE).isBetween(1.795, 1.805);
    }
  }

  @Test
  void noiseHasBareGrooveInFrontAtThirtyDecibelsBelowTheMusic() {
    DamagedCopy copy = DamagedCopy.of(SOUND, Scenario.NOISE, 1);
    double[][] lead = new double[2][];
    for (int c = 0; c < 2; c++) {
      lead[c] = Arrays.copyOfRange(copy.damaged()[c], 0, copy.leadFrames());
      assertThat(Arrays.copyOfRange(copy.sound()[c], 0, copy.leadFrames())).containsOnly(0);
    }
    double db = 20 * StrictMath.log10(Levels.rms(SOUND.samples()) / Levels.rms(lead));
    assertThat(db).isBetween(28.0, 31.0); // it turns with the disc, and one wall is 1 dB louder
  }

  @Test
  void damageTwiceAsLargeStandsOutTwiceAsFar() {
    double[] sound = SOUND.samples()[0];
    double[] pulse = {0.01, -0.02};
    double[] twice = {0.02, -0.04};
    Prominence prominence = new Prominence();
    double one = prominence.of(sound, pulse, 50_000);
    assertThat(prominence.of(sound, twice, 50_000) / one).isBetween(1.999, 2.001);
    assertThat(one).isGreaterThan(TrueRange.PROMINENT);
    assertThat(prominence.of(sound, new double[] {1e-5}, 50_000)).isLessThan(1);
  }
}
