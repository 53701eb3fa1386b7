package org.groovemend.evaluate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.groovemend.chain.Progress;
import org.groovemend.click.ClickParameters;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BenchTest {
  @TempDir Path folder;

  private List<Trial> run(Treatment treatment, Scenario... scenarios) throws Exception {
    Request request =
        new Request(List.of(Examples.music(3, 1)), List.of(scenarios), 1, treatment, "test");
    List<Trial> trials = Bench.run(request, folder, Crew.alone(), Progress.SILENT);
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).isEmpty();
    }
    return trials;
  }

  @Test
  void clicksAreRepairedAndTheFiguresAreTheSameAgain() throws Exception {
    Treatment treatment = Treatment.defaults();
    List<Trial> trials = run(treatment, Scenario.CLICKS, Scenario.CLEAN);
    assertThat(trials).extracting(Trial::scenario).containsExactly(Scenario.CLEAN, Scenario.CLICKS);
    Score clean = trials.get(0).score();
    assertThat(clean.prominent()).isZero();
    assertThat(clean.falseRepairs()).isEqualTo(clean.repairs());
    Score clicks = trials.get(1).score();
    assertThat(clicks.gainDb()).isGreaterThan(10);
    // 19 places, some at the very edge of prominent: a score is checked here, not the detector
    assertThat(clicks.recall()).isGreaterThan(0.75);
    assertThat(trials.get(1).expectedFalsePerMinute()).isBetween(0.0, 60.0);
    List<Trial.SweepPoint> sweep = trials.get(1).sweep();
    for (int i = 1; i < sweep.size(); i++) {
      assertThat(sweep.get(i).found()).isLessThanOrEqualTo(sweep.get(i - 1).found());
      assertThat(sweep.get(i).repairs()).isLessThanOrEqualTo(sweep.get(i - 1).repairs());
    }
    assertThat(run(treatment, Scenario.CLICKS, Scenario.CLEAN)).isEqualTo(trials);
    assertThat(EvaluationCharts.precisionAndRecall(trials)).isNotEmpty();
    assertThat(EvaluationCharts.alarms(trials)).isEqualTo(EvaluationCharts.alarms(trials));
    assertThat(Summary.table(trials)).contains("| partials | clean |", "| partials | clicks |");
  }

  @Test
  void aTreatmentThatDoesNothingGainsNothing() throws Exception {
    Treatment nothing =
        Treatment.defaults()
            .withCaptured(CaptureCurve.RIAA)
            .withStages(List.of(StageId.CLICKS))
            .withClicks(ClickParameters.neutral());
    Trial trial = run(nothing, Scenario.CLICKS).get(0);
    assertThat(trial.score().recall()).isZero();
    // the copy went through 24 bits
    assertThat(Math.abs(trial.score().gainDb())).isLessThan(1e-3);
    assertThat(trial.expectedFalsePerMinute()).isNaN();
  }

  @Test
  void nothingToTryIsRefused() {
    assertThatThrownBy(
            () -> new Request(List.of(), List.of(Scenario.CLEAN), 1, Treatment.defaults(), "test"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
