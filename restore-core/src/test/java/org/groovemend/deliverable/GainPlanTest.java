package org.groovemend.deliverable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.groovemend.audio.AudioFormat;
import org.groovemend.measure.Loudness;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class GainPlanTest {

  private static CopyLevel level(double lufs, double peak) {
    return new CopyLevel(new Loudness(lufs, lufs + 5, lufs + 3, 4), peak);
  }

  @Test
  void theTargetIsReachedWhereThePeakAllowsIt() {
    GainPlan plan = GainPlan.toLoudness(level(-31.5, -10), new LoudnessWish(-23, false, -1));
    assertThat(plan.gainDb()).isCloseTo(8.5, within(1e-12));
    assertThat(plan.wantedDb()).isEqualTo(plan.gainDb());
    assertThat(plan.factor()).isCloseTo(2.660725, within(1e-6)); // 10^(8.5/20)
  }

  @Test
  void elseThePeakDecidesAndThatIsSaid() {
    GainPlan plan = GainPlan.toLoudness(level(-31.5, -6), new LoudnessWish(-23, true, -1));
    assertThat(plan.gainDb()).isCloseTo(5, within(1e-12));
    assertThat(plan.wantedDb()).isCloseTo(8.5, within(1e-12));
    assertThat(plan.words()).contains("the set", "+8.50", "+5.00", "-26.5 LUFS", "-1.0 dBTP");
  }

  @Test
  void noGainIsExactlyNone() {
    assertThat(GainPlan.stated(0).factor()).isEqualTo(1);
  }

  @ParameterizedTest
  @CsvSource({"1,-1", "-71,-1", "NaN,-1", "-23,0", "-23,-61", "-23,NaN"})
  void wishesOutOfRangeAreRefused(double target, double peak) {
    assertThatThrownBy(() -> new LoudnessWish(target, false, peak))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("outside");
  }

  @Test
  void whatAFormCannotHoldIsSaid() {
    AudioFormat wide = AudioFormat.ieeeFloat(96_000, 2, 32);
    AudioFormat usual = AudioFormat.pcm(96_000, 2, 24);
    FileTags none = FileTags.none();
    assertThat(Container.FLAC.hindrance(wide, 10, none))
        .hasValueSatisfying(s -> assertThat(s).contains("float"));
    assertThat(Container.AIFF.hindrance(wide, 10, none)).isEmpty();
    assertThat(Container.AIFF.hindrance(usual, 800_000_000L, none))
        .hasValueSatisfying(s -> assertThat(s).contains("4.47 GiB", "wav or flac"));
    assertThat(Container.WAV.hindrance(usual, 800_000_000L, none)).isEmpty();
    assertThat(Container.FLAC.hindrance(usual, 1L << 36, none)).isPresent();
    assertThat(Container.WAV.hindrance(usual, 0, none)).isPresent();
  }
}
