package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.groovemend.batch.PlannedSide.Why;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BatchPlanTest {

  @TempDir private Path out;

  private static SideOrder order(Treatment treatment, long bytes, TimeRange leadIn, Path grooveOf) {
    return new SideOrder(
        new FoundSide(Path.of("/nowhere/s/a.wav"), "s/a.wav", bytes, 5),
        null,
        null,
        null,
        Map.of(),
        treatment,
        leadIn,
        grooveOf);
  }

  private static SideOrder order(Treatment treatment) {
    return order(treatment, 100, null, null);
  }

  private BatchPlan.Wish wish(String version, boolean anyVersion, boolean again) {
    return new BatchPlan.Wish(out, ReportWish.NONE, version, anyVersion, again, 1, 1);
  }

  private Why why(SideOrder order, SideRow row, BatchPlan.Wish wish) {
    BatchPlan plan = BatchPlan.of(List.of(order), Map.of("s/a.wav", row), wish);
    return plan.sides().isEmpty() ? null : plan.sides().get(0).why();
  }

  private SideRow done(SideOrder order) throws IOException {
    String key =
        BatchPlan.of(List.of(order), Map.of(), wish("1", false, false)).sides().get(0).key();
    Path folder = Files.createDirectories(out.resolve("sides/s"));
    Files.writeString(folder.resolve("a.ledger.jsonl"), "abc");
    Files.writeString(folder.resolve("a.restored.wav"), "abcd");
    return row(SideState.DONE, key, 1);
  }

  private static SideRow row(SideState state, String key, int attempts) {
    return new SideRow(
        1,
        "s/a.wav",
        new OutputNames.Output("sides/s", "a"),
        state,
        attempts,
        100,
        5,
        "0".repeat(64),
        key,
        "1",
        "a.ledger.jsonl",
        3,
        4,
        1,
        2);
  }

  @Test
  void aSideThatIsDoneIsSkippedAndEveryChangeHasItsReason() throws IOException {
    SideOrder order = order(Treatment.defaults());
    SideRow row = done(order);
    BatchPlan.Wish same = wish("1", false, false);
    assertThat(why(order, row, same)).isNull();
    assertThat(why(order, row, wish("2", false, false))).isEqualTo(Why.VERSION);
    assertThat(why(order, row, wish("2", true, false))).isNull();
    assertThat(why(order, row, wish("1", false, true))).isEqualTo(Why.ASKED);
    assertThat(why(order(Treatment.defaults(), 101, null, null), row, same))
        .isEqualTo(Why.ORIGINAL);
    assertThat(why(order(Treatment.gentle()), row, same)).isEqualTo(Why.TREATMENT);
    assertThat(why(order(Treatment.defaults(), 100, new TimeRange(0, 1), null), row, same))
        .isEqualTo(Why.TREATMENT);
    assertThat(why(order(Treatment.defaults(), 100, null, Path.of("/nowhere/b.wav")), row, same))
        .isEqualTo(Why.TREATMENT);
    assertThat(why(order, row(SideState.RUNNING, row.treatment(), 1), same))
        .isEqualTo(Why.UNFINISHED);
    assertThat(why(order, row(SideState.FAILED, null, 1), same)).isEqualTo(Why.FAILED);
    assertThat(why(order, row(SideState.WAITING, null, 0), same)).isEqualTo(Why.NEW);
    Files.writeString(out.resolve("sides/s/a.restored.wav"), "ab");
    assertThat(why(order, row, same)).isEqualTo(Why.MISSING);
  }

  @Test
  void settingsOfStagesThatAreNotAppliedRedoNothing() throws IOException {
    Treatment clicks = Treatment.defaults().withStages(List.of(StageId.CLICKS));
    SideRow row = done(order(clicks));
    Treatment other = clicks.withNoise(clicks.noise().withReductionDb(12));
    assertThat(why(order(other), row, wish("1", false, false))).isNull();
    assertThat(
            why(
                order(other.withStages(List.of(StageId.CLICKS, StageId.NOISE))),
                row,
                wish("1", false, false)))
        .isEqualTo(Why.TREATMENT);
  }

  @Test
  void theLongestComesFirstAndEarlierRunsCorrectTheGuess() throws IOException {
    Map<String, SideRow> rows = new HashMap<>();
    SideRow row = done(order(Treatment.defaults()));
    rows.put(row.place(), row);
    List<SideOrder> orders =
        List.of(
            SideOrder.plain(
                new FoundSide(Path.of("/n/b.wav"), "s/b.wav", 1_000_000, 1), Treatment.defaults()),
            SideOrder.plain(
                new FoundSide(Path.of("/n/c.wav"), "s/c.wav", 9_000_000, 1), Treatment.defaults()));
    BatchPlan plan = BatchPlan.of(orders, rows, wish("1", false, false));
    assertThat(plan.sides().get(0).order().found().place()).isEqualTo("s/c.wav");
    // the row of this test took 2 s where 1 s was guessed
    assertThat(plan.factor()).isEqualTo(2);
    double guessed = plan.sides().stream().mapToDouble(PlannedSide::expectedSeconds).sum();
    assertThat(plan.seconds(4)).isEqualTo(guessed * 2 / 4);
  }

  @Test
  void partsShareTheCollectionOut() {
    List<SideOrder> orders =
        java.util.stream.IntStream.range(0, 50)
            .mapToObj(
                i ->
                    SideOrder.plain(
                        new FoundSide(Path.of("/n/" + i), "s/" + i + ".wav", 10, 1),
                        Treatment.defaults()))
            .toList();
    Set<String> seen = new HashSet<>();
    for (int i = 1; i <= 3; i++) {
      BatchPlan plan =
          BatchPlan.of(
              orders, Map.of(), new BatchPlan.Wish(out, ReportWish.NONE, "1", false, false, i, 3));
      plan.sides().forEach(side -> assertThat(seen.add(side.output().name())).isTrue());
    }
    assertThat(seen).hasSize(50);
  }
}
