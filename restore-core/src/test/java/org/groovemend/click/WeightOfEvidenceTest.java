package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class WeightOfEvidenceTest {
  private static final int RATE = 44_100;
  private static final ClickGeometry G = ClickGeometry.of(ClickParameters.defaults(), RATE);

  /**
   * Four resonators in a row (poles of radius 0.995), driven by noise of deviation 1e-3: as tonal
   * as a held chord; root mean square 0.05.
   */
  private static double[] process(long seed, int burstAt, int burstLength, double burst) {
    Random random = new Random(seed);
    double[] x = new double[4 * G.hop()];
    for (int n = 0; n < x.length; n++) {
      x[n] = 1e-3 * random.nextGaussian() * (n >= burstAt && n < burstAt + burstLength ? burst : 1);
    }
    for (double angle : new double[] {0.1, 0.25, 0.6, 1.3}) {
      for (int n = 2; n < x.length; n++) {
        x[n] += 2 * 0.995 * Math.cos(angle) * x[n - 1] - 0.995 * 0.995 * x[n - 2];
      }
    }
    double power = 0;
    for (double v : x) {
      power += v * v / x.length;
    }
    double gain = 0.05 / Math.sqrt(power);
    return Arrays.stream(x).map(v -> gain * v).toArray();
  }

  private static List<Candidate> find(double[] x, double[] other) {
    List<Candidate> found = new ArrayList<>();
    new BlockDetector(G, RATE).find(x, other, G.hop(), 0, 0, 1e-9, found);
    return found;
  }

  private static Candidate at(List<Candidate> found, int frame) {
    return found.stream()
        .filter(k -> k.start() <= frame + 8 && k.end() >= frame)
        .findFirst()
        .orElseThrow(() -> new AssertionError("no candidate at " + frame));
  }

  @Test
  void theSameSizeIsDamageWhenAddedAndMusicWhenItDrives() {
    int place = G.hop() + 500;
    double[] added = process(1, 0, 0, 1);
    double[] pulse = {0.3, 1, 0.7, -0.4, -0.5, 0.2};
    for (int i = 0; i < pulse.length; i++) {
      added[place + i] += 0.1 * pulse[i];
    }
    double[] driven = process(1, place, 6, 40);
    Candidate click = at(find(added, null), place);
    Candidate attack = at(find(driven, null), place);
    assertThat(click.logOdds()).isGreaterThan(ClickTail.HIGHEST);
    assertThat(attack.logOdds()).isLessThan(ClickTail.LEAST_EVIDENCE - 1);
    assertThat(trait(click, Trait.CONFIRMED_AFTER))
        .isGreaterThan(trait(attack, Trait.CONFIRMED_AFTER));
    assertThat(trait(attack, Trait.REMAINDER)).isGreaterThan(trait(click, Trait.REMAINDER));
    assertThat(trait(click, Trait.DURATION))
        .isEqualTo(Math.log(1000.0 * click.length() / RATE), within(1e-12));
  }

  @Test
  void whatBothChannelsShareSpeaksForMusic() {
    int place = G.hop() + 500;
    double[] left = process(2, 0, 0, 1);
    double[] right = process(3, 0, 0, 1);
    double[] bothLeft = left.clone();
    double[] bothRight = right.clone();
    for (int i = 0; i < 6; i++) {
      double v = 0.1 * StrictMath.sin(1 + i);
      left[place + i] += v;
      bothLeft[place + i] += v;
      bothRight[place + i] += v;
    }
    Candidate one = at(find(left, right), place);
    Candidate both = at(find(bothLeft, bothRight), place);
    assertThat(trait(both, Trait.LATERAL)).isGreaterThan(0.9);
    assertThat(trait(one, Trait.LATERAL)).isBetween(-0.3, 0.3);
    assertThat(one.logOdds()).isGreaterThan(both.logOdds() + 1);
  }

  @Test
  void aCopiedChannelTellsNothing() {
    int place = G.hop() + 500;
    double[] x = process(4, 0, 0, 1);
    x[place] += 0.1;
    Candidate alone = at(find(x, null), place);
    Candidate copied = at(find(x, x.clone()), place);
    assertThat(copied.logOdds()).isEqualTo(alone.logOdds());
  }

  @Test
  void curvesAreConstantBeyondTheirEnds() {
    double[] low = new double[Trait.COUNT];
    double[] lower = new double[Trait.COUNT];
    Arrays.fill(low, -1e3);
    Arrays.fill(lower, -1e9);
    assertThat(WeightOfEvidence.stereo().logOdds(low))
        .isEqualTo(WeightOfEvidence.stereo().logOdds(lower));
    assertThat(WeightOfEvidence.mono().logOdds(low))
        .isEqualTo(WeightOfEvidence.mono().logOdds(lower));
  }

  /**
   * Half a millisecond long, alike in both channels: as music goes, but far too loud for its
   * surroundings.
   */
  @Test
  void aBlowAcrossTheGrooveStandsClear() {
    int place = G.hop() + 500;
    double[] left = process(5, 0, 0, 1);
    double[] right = process(6, 0, 0, 1);
    double[] quiet = left.clone();
    for (int i = 0; i < 24; i++) {
      double v = StrictMath.exp(-i / 6.0);
      left[place + i] += 2 * v;
      right[place + i] += 2 * v;
      quiet[place + i] += 0.2 * v;
    }
    assertThat(at(find(left, right), place).logOdds()).isGreaterThan(ClickTail.HIGHEST);
    assertThat(WeightOfEvidence.standingClear(at(find(quiet, null), place).traits())).isNegative();
  }

  private static double trait(Candidate k, Trait t) {
    return k.traits()[t.ordinal()];
  }
}
