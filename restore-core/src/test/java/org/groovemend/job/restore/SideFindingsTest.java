package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.click.ClickParameters;
import org.groovemend.ledger.FileFacts;
import org.groovemend.playback.CaptureCurve;
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
    assertThat(noise)
        .allSatisfy(f -> assertThat(f.sentence()).hasSizeGreaterThan(20).endsWith("."));
    assertThat(fact(noise, "spectrumSmoothingOctaves").value()).isEqualTo("0.08333");
    assertThat(fact(noise, "reductionDb").value()).isEqualTo("8");
    assertThat(fact(noise, "longPriorSmoothing").value()).isEqualTo("0.97");
    assertThat(fact(noise, "priorFloorDb").value()).isEqualTo("-25");
    assertThat(SideFindings.ofSettings(ClickParameters.defaults()))
        .allSatisfy(f -> assertThat(f.sentence()).endsWith(".").doesNotEndWith(".."));
    assertThat(
            fact(
                    SideFindings.ofSettings(NoiseParameters.defaults().withReductionDb(0)),
                    "reductionDb")
                .value())
        .isEqualTo("0");
  }

  @Test
  void theFileIsToldWithItsChunksAndHowItWasCaptured() {
    FileFacts file =
        new FileFacts(
            "side.wav",
            100,
            "0".repeat(64),
            "0".repeat(64),
            9_600_000,
            AudioFormat.pcm(96_000, 2, 24),
            "WAV");
    List<Fact> facts =
        SideFindings.ofFile(file, List.of("fmt 16 bytes", "data 9 bytes"), CaptureCurve.RIAA, null);
    assertThat(fact(facts, "Parts").sentence()).isEqualTo("fmt 16 bytes, data 9 bytes.");
    assertThat(fact(facts, "Word").value()).isEqualTo("24-bit PCM");
    assertThat(fact(facts, "Sampling rate").value()).isEqualTo("96,000");
    assertThat(fact(facts, "Length").sentence()).isEqualTo("9,600,000 frames.");
    assertThat(fact(facts, "Captured").value()).isEqualTo("riaa");
    assertThat(
            fact(SideFindings.ofFile(file, List.of(), CaptureCurve.UNKNOWN, null), "Captured")
                .sentence())
        .startsWith("Not stated");
  }
}
