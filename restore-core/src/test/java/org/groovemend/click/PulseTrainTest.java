package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PulseTrainTest {
  private static final int RATE = 48_000;

  private static List<Candidate> at(long... starts) {
    List<Candidate> list = new ArrayList<>();
    for (long start : starts) {
      list.add(new Candidate(start, 5, 0, 2, -1, 1e-3, new double[5], new double[Trait.COUNT]));
    }
    return list;
  }

  private static int members(List<Candidate> list) {
    return list.size() - new PulseTrain(RATE).judged(list).size();
  }

  @Test
  void fivePulsesAtOnePitchAreATrainFourAreNot() {
    assertThat(members(at(1000, 1200, 1401, 1599, 1800))).isEqualTo(5);
    assertThat(members(at(1000, 1200, 1401, 1599))).isZero();
  }

  @Test
  void aPulseMayBeMissingButNotTheEvenness() {
    assertThat(members(at(1000, 1200, 1400, 1800, 2000))).isEqualTo(5);
    assertThat(members(at(1000, 1200, 1440, 1600, 1850))).isZero();
  }

  @Test
  void placesAmongTrainsAreJudgedAsPulsedSound() {
    List<Candidate> growl = at(1000, 1200, 1400, 1600, 1800, 1930, 40_000);
    List<Candidate> judged = new PulseTrain(RATE).judged(growl);
    assertThat(judged).extracting(Candidate::start).containsExactly(1930L, 40_000L);
    assertThat(judged).extracting(Candidate::logOdds).containsExactly(-1.0, 2.0);
  }

  /** Mains interference, every 10 ms, and scratches, once a turn, stay damage. */
  @Test
  void slowRowsAreNoTrain() {
    assertThat(members(at(0, 480, 960, 1440, 1920, 2400))).isZero();
  }

  /** A hundred a second at random: under one in a hundred. */
  @Test
  void randomCrackleIsNoTrain() {
    Random random = new Random(1);
    long[] places = random.longs(6000, 0, 60L * RATE).sorted().toArray();
    assertThat(members(at(places))).isLessThan(60);
  }
}
