package org.groovemend.evaluate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ScorerTest {
  private static final Sound SOUND = Examples.music(4, 1);
  private static final DamagedCopy COPY = DamagedCopy.of(SOUND, Scenario.CLICKS, 1);
  private static final Scorer SCORER = new Scorer(COPY, Examples.RATE);

  private static List<FoundRange> exactly(int shift) {
    List<FoundRange> found = new ArrayList<>();
    for (TrueRange t : COPY.truth()) {
      int length = t.end() - t.start();
      int start = Math.min(SOUND.frames() - length, t.start() + shift);
      found.add(new FoundRange(t.channel(), start, start + length, 1));
    }
    return found;
  }

  @Test
  void theSoundItselfIsPerfect() {
    Score s = SCORER.score(COPY.sound(), exactly(0));
    assertThat(s.sdrAfterDb()).isEqualTo(120);
    assertThat(s.snrAfterDb()).isEqualTo(120);
    assertThat(s.harmDb()).isEqualTo(120);
    assertThat(s.distanceAfterDb()).isZero();
    assertThat(s.recall()).isEqualTo(1);
    assertThat(s.precision()).isEqualTo(1);
  }

  @Test
  void theDamagedCopyItselfGainsNothingAndFindsNothing() {
    Score s = SCORER.score(COPY.damaged(), List.of());
    assertThat(s.gainDb()).isZero();
    assertThat(s.sdrAfterDb()).isEqualTo(s.sdrBeforeDb());
    assertThat(s.distanceAfterDb()).isEqualTo(s.distanceBeforeDb()).isPositive();
    assertThat(s.harmDb()).isEqualTo(120);
    assertThat(s.recall()).isZero();
    assertThat(s.precision()).isNaN();
    assertThat(s.changedShare()).isZero();
  }

  @Test
  void shiftedRepairsFindLessAndAreFalse() {
    Score s = SCORER.score(COPY.damaged(), exactly(4410));
    assertThat(s.recall()).isLessThan(0.3);
    assertThat(s.precision()).isLessThan(0.3);
    assertThat(s.falsePerMinute()).isEqualTo(s.falseRepairs() / (4 / 60.0), within(1e-9));
  }

  @Test
  void theOtherChannelDoesNotCount() {
    List<FoundRange> crossed = new ArrayList<>();
    boolean[] hit = new boolean[2];
    for (TrueRange t : COPY.truth()) {
      hit[t.channel()] = true;
    }
    assertThat(hit).containsOnly(true);
    TrueRange lone =
        COPY.truth().stream()
            .filter(
                t ->
                    COPY.truth().stream()
                        .noneMatch(
                            o ->
                                o.channel() != t.channel()
                                    && o.start() < t.end() + 100
                                    && o.end() > t.start() - 100))
            .findFirst()
            .orElse(null);
    if (lone == null) { // every blow hit both walls: make one that did not
      List<TrueRange> truth = List.of(COPY.truth().get(0));
      Scorer one =
          new Scorer(new DamagedCopy(COPY.sound(), COPY.damaged(), 0, truth), Examples.RATE);
      lone = truth.get(0);
      crossed.add(new FoundRange(1 - lone.channel(), lone.start(), lone.end(), 1));
      assertThat(one.hits(crossed, 0).wrong).isEqualTo(1);
      return;
    }
    crossed.add(new FoundRange(1 - lone.channel(), lone.start(), lone.end(), 1));
    assertThat(SCORER.hits(crossed, 0).wrong).isEqualTo(1);
  }

  /** Half the error on damage: 6.02 dB more. */
  @Test
  void halfTheErrorIsSixDecibels() {
    double[][] half = new double[2][SOUND.frames()];
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < SOUND.frames(); n++) {
        half[c][n] = 0.5 * (COPY.sound()[c][n] + COPY.damaged()[c][n]);
      }
    }
    Score s = SCORER.score(half, List.of());
    assertThat(s.gainDb()).isCloseTo(6.0206, within(1e-4));
    assertThat(s.sdrAfterDb() - s.sdrBeforeDb()).isCloseTo(6.0206, within(1e-4));
    assertThat(s.harmDb()).isEqualTo(120);
  }

  /** A gain of 10 dB is a distance of 10 dB wherever the sound is above the floor. */
  @Test
  void louderByTenDecibelsIsTenAwayAndHarmIsMeasured() {
    double[][] loud = new double[2][SOUND.frames()];
    double gain = StrictMath.pow(10, 0.5);
    for (int c = 0; c < 2; c++) {
      for (int n = 0; n < SOUND.frames(); n++) {
        loud[c][n] = gain * COPY.sound()[c][n];
      }
    }
    Score s = SCORER.score(loud, List.of());
    assertThat(s.distanceAfterDb()).isBetween(6.0, 10.001); // less where the floor is reached
    // error is (gain - 1) of the sound
    assertThat(s.harmDb()).isCloseTo(-20 * StrictMath.log10(gain - 1), within(0.3));
  }

  @Test
  void aHigherMarginKeepsFewerRepairs() {
    List<FoundRange> found = exactly(0);
    assertThat(SCORER.hits(found, 0.5).found).isPositive();
    assertThat(SCORER.hits(found, 1.5).found).isZero();
    assertThat(SCORER.hits(found, 1.5).repairs).isZero();
  }
}
