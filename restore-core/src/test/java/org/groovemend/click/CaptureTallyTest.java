package org.groovemend.click;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CaptureTallyTest {
  private static final int NEAR = 44;

  private static CaptureFinding finding(double... ratios) {
    CaptureTally tally = new CaptureTally();
    for (int i = 0; i < ratios.length; i++) {
      tally.add(List.of(new CaptureTally.Heard(10_000L * i, 1, ratios[i])), NEAR);
    }
    return tally.finding(1);
  }

  private static double[] same(double ratio, int count) {
    double[] ratios = new double[count];
    java.util.Arrays.fill(ratios, ratio);
    return ratios;
  }

  @Test
  void noClickCountsForMoreThanTheMost() {
    assertThat(CaptureTally.weight(1e6)).isEqualTo(CaptureTally.MOST);
    assertThat(CaptureTally.weight(-1e6)).isEqualTo(-2);
    double last = -2;
    for (double x = -30; x < 30; x += 0.1) {
      double w = CaptureTally.weight(x);
      assertThat(w).isGreaterThanOrEqualTo(last);
      last = w;
    }
  }

  @Test
  void agreementInNumbersDecidesAndNumbersAloneDoNot() {
    assertThat(finding(same(20, 12)).verdict()).isEqualTo("riaa");
    assertThat(finding(same(-20, 12)).verdict()).isEqualTo("flat");
    assertThat(finding(same(0.5, 500)).verdict()).isEqualTo(CaptureFinding.UNDECIDED);
    assertThat(finding(same(20, 11)).verdict()).isEqualTo(CaptureFinding.UNDECIDED);
  }

  @Test
  void clicksOfRandomSignDoNotDecide() {
    int decided = 0;
    for (int seed = 0; seed < 200; seed++) {
      Random random = new Random(seed);
      double[] ratios = new double[60];
      for (int i = 0; i < ratios.length; i++) {
        double strong = random.nextBoolean() ? 12 : -16;
        ratios[i] = strong;
      }
      decided += finding(ratios).verdict().equals(CaptureFinding.UNDECIDED) ? 0 : 1;
    }
    // two standard deviations, both signs: 1 in 20
    assertThat(decided).isLessThan(20);
  }

  @Test
  void theVerdictStandsWithoutTheLoudestVoice() {
    double[] ratios = same(1.5, 16); // each worth 0.3, 1.3 decibans
    ratios[5] = 24; // 13 decibans
    assertThat(finding(ratios).decibans()).isGreaterThan(CaptureFinding.LEAST_DECIBANS);
    assertThat(finding(ratios).certainDecibans()).isLessThan(CaptureFinding.LEAST_DECIBANS);
    assertThat(finding(ratios).verdict()).isEqualTo(CaptureFinding.UNDECIDED);
    assertThat(finding(same(1.5, 26)).verdict()).isEqualTo("riaa");
  }

  @Test
  void aClickInBothWallsIsOneClickAndTheLargerHasTheSay() {
    CaptureTally tally = new CaptureTally();
    List<CaptureTally.Heard> heard = new ArrayList<>();
    heard.add(new CaptureTally.Heard(100, 5, 20));
    heard.add(new CaptureTally.Heard(120, 2, -16));
    heard.add(new CaptureTally.Heard(900, 2, -20));
    Collections.reverse(heard);
    tally.add(heard, NEAR);
    CaptureFinding f = tally.finding(1);
    assertThat(f.clicks()).isEqualTo(2);
    assertThat(f.forCurve()).isEqualTo(1);
    assertThat(f.forFlat()).isEqualTo(1);
    double sum = CaptureTally.weight(20) + CaptureTally.weight(-20);
    assertThat(f.decibans()).isCloseTo(10 / StrictMath.log(10) * sum, within(1e-9));
  }

  @Test
  void theSentenceSaysVerdictOddsAndNumber() {
    assertThat(finding(same(20, 12)).inWords())
        .contains("tails of the RIAA playback curve", "over 10,000 to 1", "12 of 12");
    assertThat(finding(same(-3, 12)).inWords())
        .contains("no tails", "odds about 7,000 to 1", "0 of 12 clicks");
    assertThat(finding().inWords()).contains("none could be weighed", "treated as flat");
  }
}
