package org.groovemend.overview;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SamplingPlanTest {

  /**
   * The smallest n with {@code scipy.stats.hypergeom.pmf(0, N, D, n) <= 1 - confidence}, D = ceil(p
   * N), found with scipy by trying every n.
   */
  @ParameterizedTest
  @CsvSource({
    "20, 0.95, 0.05, 1, 19",
    "100, 0.95, 0.05, 5, 45",
    "400, 0.95, 0.05, 20, 55",
    "1000, 0.95, 0.05, 50, 57",
    "100000, 0.95, 0.05, 5000, 59",
    "1000, 0.90, 0.01, 10, 205",
    "50, 0.99, 0.10, 5, 29"
  })
  void asManyAsTheHypergeometricDistributionAsksFor(
      int sides, double confidence, double tolerated, int bad, int heard) {
    SamplingPlan plan = SamplingPlan.of(sides, confidence, tolerated);
    assertThat(plan.bad()).isEqualTo(bad);
    assertThat(plan.heard()).isEqualTo(heard);
  }

  /** 59 for 95 % and 5 %, 299 for 95 % and 1 %: ln(1 - C) / ln(1 - p), as any table has it. */
  @Test
  void ofACollectionWithoutEndTheTablesNumbers() {
    assertThat(SamplingPlan.of(10, 0.95, 0.05).heardOfMany()).isEqualTo(59);
    assertThat(SamplingPlan.of(10, 0.95, 0.01).heardOfMany()).isEqualTo(299);
    assertThat(SamplingPlan.of(10, 0.90, 0.10).heardOfMany()).isEqualTo(22);
  }

  @Test
  void theSameSeedDrawsTheSameAndEverySideIsDrawnAsOften() {
    List<String> places = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      places.add("shelf/side " + i + ".wav");
    }
    SamplingPlan plan = SamplingPlan.of(200, 0.95, 0.05);
    assertThat(plan.draw(places, 7)).isEqualTo(plan.draw(places, 7)).hasSize(plan.heard());
    assertThat(new HashSet<>(plan.draw(places, 7))).hasSize(plan.heard());
    assertThat(plan.draw(places, 8)).isNotEqualTo(plan.draw(places, 7));
    int[] drawn = new int[200];
    int draws = 2000;
    for (int seed = 0; seed < draws; seed++) {
      plan.draw(places, seed).forEach(i -> drawn[i]++);
    }
    double p = plan.heard() / 200.0;
    // five standard deviations of the binomial distribution; 200 sides are looked at
    double most = 5 * Math.sqrt(draws * p * (1 - p));
    for (int count : drawn) {
      assertThat((double) count).isBetween(draws * p - most, draws * p + most);
    }
  }

  @Test
  void nothingAndAlmostNothingHavePlansToo() {
    assertThat(SamplingPlan.of(0, 0.95, 0.05).heard()).isZero();
    assertThat(SamplingPlan.of(1, 0.95, 0.05).heard()).isEqualTo(1);
    assertThat(SamplingPlan.of(0, 0.95, 0.05).sentence()).contains("No side is done");
    assertThat(SamplingPlan.of(1, 0.95, 0.05).sentence()).isEqualTo("There is one side; hear it.");
    assertThat(SamplingPlan.of(3, 0.95, 0.05).sentence()).startsWith("Hear all 3 sides");
    assertThat(SamplingPlan.of(20, 0.95, 0.05).sentence())
        .startsWith("Hear these 19 of 20 sides")
        .contains("with 95 % confidence no side of the collection is bad");
    assertThat(SamplingPlan.of(1000, 0.95, 0.05).sentence())
        .startsWith("Hear these 57 of 1,000 sides")
        .contains("fewer than 50 sides (5 %)")
        .endsWith("draw with another seed.");
    assertThatThrownBy(() -> SamplingPlan.of(5, 1, 0.05))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
