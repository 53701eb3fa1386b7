package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Map;
import java.util.Random;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.surfacenoise.NoiseParameters;
import org.junit.jupiter.api.Test;

class NoisePlanTest {
  private static final int RATE = 44_100;
  private static final int FRAMES = 8 * RATE;
  private static final NoiseParameters P = NoiseParameters.defaults();

  /** Noise of 0.01 in the first two seconds, of 0.02 in the last two; tones between. */
  private static ArrayRanges side() {
    Random random = new Random(1);
    double[] x = new double[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      x[i] = (i < 4 * RATE ? 0.01 : 0.02) * random.nextGaussian();
      if (i >= 2 * RATE && i < 6 * RATE) {
        x[i] += 0.2 * Math.sin(0.07 * i);
      }
    }
    return ArrayRanges.of(RATE, new double[][] {x});
  }

  private static LeadInFinding found(boolean before, boolean behind) {
    LeadInFinding.RunOut runOut =
        behind ? new LeadInFinding.RunOut(6L * RATE, FRAMES, 1, -34) : null;
    return before
        ? new LeadInFinding(true, 0, 2L * RATE, 1, "steady", -40, false, runOut)
        : new LeadInFinding(false, 0, 0, 0, "music at once", Double.NaN, false, runOut);
  }

  @Test
  void leadInAndRunOutServeTogether() throws IOException {
    NoisePlan plan = NoisePlan.make(side(), side(), found(true, true), null, P);
    assertThat(plan.doubt()).isNull();
    assertThat(plan.noise().leadIn().levelDbfs(0, f -> 0)).isCloseTo(-40, within(0.2));
    assertThat(plan.noise().runOut().levelDbfs(0, f -> 0)).isCloseTo(-34, within(0.2));
    assertThat(plan.finding()).containsKeys("startFrame", "power", "runOut");
    Map<?, ?> runOut = (Map<?, ?>) plan.finding().get("runOut");
    assertThat(runOut.get("endFrame")).isEqualTo((long) FRAMES);
  }

  @Test
  void theRunOutAloneServesAndIsNamed() throws IOException {
    NoisePlan plan = NoisePlan.make(side(), side(), found(false, true), null, P);
    assertThat(plan.noise().leadIn().levelDbfs(0, f -> 0)).isCloseTo(-34, within(0.2));
    assertThat(plan.noise().runOut()).isNull();
    assertThat(plan.doubt()).contains("music at once").contains("run-out");
  }

  @Test
  void withoutAnyTheStageIsSkippedWithASentence() throws IOException {
    NoisePlan plan = NoisePlan.make(side(), side(), found(false, false), null, P);
    assertThat(plan.noise()).isNull();
    assertThat(plan.doubt()).contains("skipped").contains("--groove-of").endsWith(".");
  }

  /** 0.1 s of groove before the music: found, but no four frames of any length fit. */
  private static LeadInFinding tooShort(boolean behind) {
    return new LeadInFinding(
        true, 0, RATE / 10, 1, "steady", -40, false, found(true, behind).runOut());
  }

  @Test
  void theRunOutServesWhereTheLeadInIsTooShort() throws IOException {
    NoisePlan plan = NoisePlan.make(side(), side(), tooShort(true), null, P);
    assertThat(plan.noise().leadIn().levelDbfs(0, f -> 0)).isCloseTo(-34, within(0.2));
    assertThat(plan.noise().runOut()).isNull();
    assertThat(plan.finding()).containsEntry("startFrame", 6L * RATE);
    assertThat(plan.doubt()).contains("0.000 to 0.100 s").contains("too short").contains("run-out");
  }

  @Test
  void aLeadInThatIsTooShortWithoutARunOutSkipsTheStage() throws IOException {
    NoisePlan plan = NoisePlan.make(side(), side(), tooShort(false), null, P);
    assertThat(plan.noise()).isNull();
    assertThat(plan.doubt()).contains("skipped").contains("too short").contains("--groove-of");
  }

  @Test
  void aStatedStretchThatIsTooShortIsRefused() {
    LeadInFinding stated = LeadInFinding.stated(0, 100, FRAMES);
    assertThatThrownBy(() -> NoisePlan.make(side(), side(), stated, null, P))
        .isInstanceOf(RequestRefusedException.class)
        .hasMessageContaining("too short");
  }
}
