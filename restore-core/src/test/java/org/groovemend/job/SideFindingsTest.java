package org.groovemend.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.groovemend.click.ClickParameters;
import org.groovemend.report.Fact;
import org.groovemend.surfacenoise.NoiseParameters;
import org.junit.jupiter.api.Test;

class SideFindingsTest {

  private static Fact fact(List<Fact> facts, String label) {
    return facts.stream().filter(f -> f.label().equals(label)).findFirst().orElseThrow();
  }

  @Test
  void everySettingHasItsReasonAndNoMoreDigitsThanAPersonReads() {
    List<Fact> noise = SideFindings.ofSettings(NoiseParameters.defaults());
    assertThat(noise).hasSameSizeAs(NoiseParameters.class.getRecordComponents());
    assertThat(noise).allSatisfy(f -> assertThat(f.sentence()).hasSizeGreaterThan(20).endsWith("."));
    assertThat(fact(noise, "spectrumSmoothingOctaves").value()).isEqualTo("0.08333");
    assertThat(fact(noise, "reductionDb").value()).isEqualTo("8");
    assertThat(fact(noise, "priorSmoothing").value()).isEqualTo("0.97");
    assertThat(fact(noise, "priorFloorDb").value()).isEqualTo("-25");
    assertThat(SideFindings.ofSettings(ClickParameters.defaults()))
        .allSatisfy(f -> assertThat(f.sentence()).endsWith(".").doesNotEndWith(".."));
    assertThat(fact(SideFindings.ofSettings(NoiseParameters.defaults().withReductionDb(0)), "reductionDb").value())
        .isEqualTo("0");
  }
}
