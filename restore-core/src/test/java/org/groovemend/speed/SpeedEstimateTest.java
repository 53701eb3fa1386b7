package org.groovemend.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.stage.ArrayRanges;
import org.junit.jupiter.api.Test;

class SpeedEstimateTest {
  private static final int RATE = 12_000;

  private static SpeedEvidence evidence(SpeedEvidence.Kind kind, double factor, double half) {
    return new SpeedEvidence(kind, factor, half, "");
  }

  private static SpeedFinding heard(
      ArrayRanges side, double played, double meant, HumSource hum, RotationFinding rotation)
      throws IOException {
    return SpeedAnalyser.analyse(side, new SpeedQuestion(440, played, meant, null, hum, rotation));
  }

  private static SpeedEvidence of(SpeedFinding finding, SpeedEvidence.Kind kind) {
    return finding.estimate().evidence().stream()
        .filter(e -> e.kind() == kind)
        .findFirst()
        .orElseThrow();
  }

  /** Inverse variance by hand: weights 1 and 1/4. */
  @Test
  void whatAgreesIsWeighed() {
    SpeedEstimate both =
        SpeedEstimate.of(
            List.of(
                evidence(SpeedEvidence.Kind.TUNING, 1.001, 0.002),
                evidence(SpeedEvidence.Kind.TURNTABLE, 1.003, 0.004)),
            List.of());
    double log = (Math.log(1.001) + Math.log(1.003) / 4) / 1.25;
    assertThat(both.together().factor()).isCloseTo(Math.exp(log), within(1e-12));
    assertThat(both.together().half()).isCloseTo(0.002 / Math.sqrt(1.25), within(1e-12));
    assertThat(both.doubts()).isEmpty();
  }

  @Test
  void whatContradictsItselfIsADoubt() {
    SpeedEstimate both =
        SpeedEstimate.of(
            List.of(
                evidence(SpeedEvidence.Kind.TUNING, 0.98, 0.002),
                evidence(SpeedEvidence.Kind.TURNTABLE, 1.003, 0.004)),
            List.of());
    assertThat(both.together()).isNull();
    assertThat(both.doubts()).hasSize(1);
    assertThat(both.doubts().get(0)).contains("contradict");
    assertThat(SpeedEstimate.of(List.of(), List.of()).together()).isNull();
  }

  /** A 78 at 45: the tuning alone is right but for semitones, which the turntable settles. */
  @Test
  void theTurntableSettlesTheSemitone() throws IOException {
    double truth = (7200.0 / 92) / 45 * 1.002;
    InventedMusic music = new InventedMusic(7, 60, 440, 3, 0.3, 1);
    ArrayRanges side = music.heard(RATE, 30, 0.001, t -> t / truth);
    SpeedFinding alone = heard(side, Double.NaN, Double.NaN, HumSource.UNKNOWN, null);
    assertThat(alone.estimate().together().factor()).isCloseTo(1, within(0.03));
    assertThat(String.join("", alone.estimate().doubts())).contains("how many semitones");
    SpeedFinding told = heard(side, 45, 7200.0 / 92, HumSource.UNKNOWN, null);
    assertThat(told.estimate().together().low()).isLessThan(truth);
    assertThat(told.estimate().together().high()).isGreaterThan(truth);
    assertThat(told.estimate().together().half()).isLessThan(0.005);
    assertThat(told.estimate().doubts()).isEmpty();
  }

  @Test
  void theSwayTellsTheTurntableBetterThanAPerson() throws IOException {
    double rpm = 33.5;
    Wow wow = new Wow(60 / rpm, 146, 0.3, List.of(new Wow.Part(1, 0.3, 0.1)));
    InventedMusic music = new InventedMusic(8, 60, 440, 3, 0.3, 1);
    ArrayRanges side = music.heard(RATE, 60, 0.001, WowEstimatorTest.needle(wow, 60));
    RotationFinding rotation =
        new RotationFinding(true, 33.45, 60 / 33.45, 1e-6, 100, 100, List.of());
    SpeedEvidence told =
        of(
            heard(side, 100.0 / 3, 100.0 / 3, HumSource.UNKNOWN, rotation),
            SpeedEvidence.Kind.TURNTABLE);
    assertThat(told.factor()).isCloseTo(100.0 / 3 / rpm, within(0.0003));
    assertThat(told.words()).contains("by the wow");
    // a tolerance of the cutting remains, however well the turntable is known
    assertThat(told.half()).isBetween(0.005, 0.006);
  }

  @Test
  void repairsTellTheTurntableAndAWrongStatementIsADoubt() throws IOException {
    InventedMusic music = new InventedMusic(9, 20, 440, 3, 0.3, 1);
    ArrayRanges side = music.heard(RATE, 20, 0.001, t -> t);
    RotationFinding rotation =
        new RotationFinding(true, 77.0, 60 / 77.0, 1e-6, 100, 100, List.of());
    SpeedFinding told = heard(side, 45, 78, HumSource.UNKNOWN, rotation);
    assertThat(of(told, SpeedEvidence.Kind.TURNTABLE).factor()).isCloseTo(78 / 77.0, within(1e-12));
    assertThat(String.join("", told.estimate().doubts())).contains("recur at 77.00 rpm");
  }

  /** Hum recorded at 50 Hz and played 1 % slow, under noise; of the transfer it says nothing. */
  @Test
  void onlyHumOfTheDiscTells() throws IOException {
    Random random = new Random(4);
    double[] x = new double[30 * RATE];
    for (int i = 0; i < x.length; i++) {
      double t = i / (double) RATE;
      x[i] = 0.003 * random.nextGaussian();
      for (int k = 1; k <= 4; k++) {
        x[i] += 0.02 / k * Math.sin(2 * Math.PI * 49.5 * k * t + k);
      }
    }
    ArrayRanges side = ArrayRanges.of(RATE, x.length, i -> x[i]);
    SpeedEvidence told =
        of(heard(side, Double.NaN, Double.NaN, HumSource.DISC, null), SpeedEvidence.Kind.HUM);
    assertThat(told.factor()).isCloseTo(50 / 49.5, within(1e-4));
    assertThat(told.half()).isCloseTo(0.2 / 50, within(1e-12));
    assertThat(told.words()).contains("assumed: recorded with the music");
    for (HumSource source : new HumSource[] {HumSource.REPLAY, HumSource.UNKNOWN}) {
      assertThat(heard(side, Double.NaN, Double.NaN, source, null).estimate().evidence())
          .noneMatch(e -> e.kind() == SpeedEvidence.Kind.HUM);
    }
  }
}
