package org.groovemend.batch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.groovemend.chain.Progress;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Treatment;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a run does when sides fail in every way; no sound is treated. */
class BatchRunTest {

  /** A clock that goes back an hour each time it is asked. */
  private static final class Backwards extends Clock {
    private Instant now = Instant.parse("2026-03-01T12:00:00Z");

    @Override
    public synchronized Instant instant() {
      now = now.minusSeconds(3600);
      return now;
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
      return this;
    }
  }

  @TempDir private Path dir;
  private Path out;
  private final Clock clock = new Backwards();

  @BeforeEach
  void folder() throws IOException {
    out = Files.createDirectory(dir.resolve("out"));
  }

  private static List<SideOrder> orders(int count) {
    List<SideOrder> orders = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      String place = "s/" + i + ".wav";
      orders.add(
          SideOrder.plain(
              new FoundSide(Path.of("/nowhere").resolve(place), place, 1000L * (i + 1), 7),
              Treatment.defaults()));
    }
    return orders;
  }

  private static SideResult result(SideTask task) {
    return new SideResult(
        "0".repeat(64), task.name() + ".ledger.jsonl", "1".repeat(64), 1, 2, 0.01, Map.of());
  }

  /** The least that the catalogue takes for results: files of the lengths told. */
  private static SideResult write(SideTask task) throws IOException {
    Files.writeString(task.outFolder().resolve(task.name() + ".restored.wav"), "ab");
    Files.writeString(task.outFolder().resolve(task.name() + ".ledger.jsonl"), "a");
    return result(task);
  }

  private BatchOutcome run(int sides, int threads, SideWork work, BatchWatch watch)
      throws IOException {
    try (Catalogue catalogue = Catalogue.open(out.resolve(Catalogue.NAME));
        BatchLog log = BatchLog.open(out.resolve(BatchLog.NAME), clock)) {
      BatchPlan plan =
          BatchPlan.of(
              orders(sides), catalogue.rows(), BatchPlan.Wish.all(out, ReportWish.NONE, "test"));
      long run = catalogue.begin(CatalogueTest.FACTS, clock.instant(), Map.of(), plan.sides());
      BatchSettings settings =
          new BatchSettings(
              threads,
              1 << 20,
              ReportWish.NONE,
              "test",
              false,
              null,
              clock,
              (trouble, order) ->
                  new SideFailure(
                      trouble instanceof OutOfMemoryError ? "memory" : "io",
                      String.valueOf(trouble.getMessage())),
              new BagGuard());
      return BatchRun.run(catalogue, plan, out, run, settings, Crew.alone(), watch, log, work);
    }
  }

  private Map<String, SideRow> rows() throws IOException {
    try (Catalogue catalogue = Catalogue.read(out.resolve(Catalogue.NAME))) {
      return catalogue.rows();
    }
  }

  private long in(SideState state) throws IOException {
    return rows().values().stream().filter(row -> row.state() == state).count();
  }

  @Test
  void whatFailsIsNotedTheRestGoesOnAndTheNextRunTriesAgain() throws IOException {
    SideWork work =
        (task, crew, progress) -> {
          switch (task.name()) {
            case "1" -> throw new IOException("The disk has a hole.");
            case "2" -> throw new IllegalStateException("a fault");
            case "3" -> throw new InternalError("a fault occurred in an unsafe memory access");
            case "4" -> throw new StackOverflowError("too deep");
            default -> {
              return write(task);
            }
          }
        };
    BatchOutcome outcome = run(8, 2, work, BatchWatch.SILENT);
    assertThat(outcome.done()).isEqualTo(4);
    assertThat(outcome.failed()).hasSize(4);
    assertThat(outcome.left()).isZero();
    assertThat(in(SideState.FAILED)).isEqualTo(4);
    Set<String> second = ConcurrentHashMap.newKeySet();
    outcome =
        run(
            8,
            2,
            (task, crew, progress) -> {
              second.add(task.name());
              assertThat(task.replace()).isTrue();
              return write(task);
            },
            BatchWatch.SILENT);
    assertThat(second).containsExactlyInAnyOrder("1", "2", "3", "4");
    assertThat(in(SideState.DONE)).isEqualTo(8);
    assertThat(Files.readString(out.resolve(BatchLog.NAME))).contains("The disk has a hole.");
  }

  @Test
  void aSideWithoutMemoryIsTriedAloneAtTheEnd() throws IOException {
    List<String> order = Collections.synchronizedList(new ArrayList<>());
    AtomicBoolean first = new AtomicBoolean(true);
    SideWork work =
        (task, crew, progress) -> {
          order.add(task.name());
          if (task.name().equals("3") && first.getAndSet(false)) {
            throw new OutOfMemoryError("Java heap space");
          }
          if (task.name().equals("1")) {
            throw new OutOfMemoryError("Java heap space");
          }
          return write(task);
        };
    BatchOutcome outcome = run(5, 2, work, BatchWatch.SILENT);
    assertThat(outcome.done()).isEqualTo(4);
    assertThat(outcome.failed()).hasSize(1);
    assertThat(outcome.failed().get(0).failure().kind()).isEqualTo("memory");
    assertThat(order.subList(5, 7)).containsExactlyInAnyOrder("1", "3");
    assertThat(Collections.frequency(order, "1")).isEqualTo(2);
  }

  @Test
  void theLongestSidesComeFirstTwoAtATime() throws Exception {
    List<String> begun = Collections.synchronizedList(new ArrayList<>());
    CountDownLatch both = new CountDownLatch(2);
    SideWork work =
        (task, crew, progress) -> {
          begun.add(task.name());
          both.countDown();
          try {
            // ends only if two are under work at once
            assertThat(both.await(60, TimeUnit.SECONDS)).isTrue();
          } catch (InterruptedException e) {
            throw new IOException(e);
          }
          return write(task);
        };
    BatchOutcome outcome = run(6, 2, work, BatchWatch.SILENT);
    assertThat(outcome.done()).isEqualTo(6);
    assertThat(begun.subList(0, 2)).containsExactlyInAnyOrder("5", "4");
  }

  @Test
  void aPersonWhoStopsItLosesNothing() throws IOException {
    AtomicBoolean stop = new AtomicBoolean();
    BatchWatch watch =
        new BatchWatch() {
          @Override
          public Progress begun(PlannedSide side) {
            return (step, done, total) -> {
              if (stop.get()) {
                throw new java.util.concurrent.CancellationException("interrupted");
              }
            };
          }

          @Override
          public void over(PlannedSide side, boolean done, double seconds) {}

          @Override
          public boolean stopping() {
            return stop.get();
          }
        };
    BatchOutcome outcome =
        run(
            5,
            1,
            (task, crew, progress) -> {
              if (task.name().equals("2")) {
                stop.set(true);
              }
              progress.at("step", 1, 2);
              return write(task);
            },
            watch);
    assertThat(outcome.done()).isEqualTo(2);
    assertThat(outcome.failed()).isEmpty();
    assertThat(outcome.left()).isEqualTo(3);
    assertThat(in(SideState.WAITING)).isEqualTo(3);
    assertThat(run(5, 1, (t, c, p) -> write(t), BatchWatch.SILENT).done()).isEqualTo(3);
  }

  @Test
  void withoutItsCatalogueARunStops() throws IOException {
    SideWork work =
        (task, crew, progress) -> {
          throw new CatalogueException("The catalogue is gone.");
        };
    BatchOutcome outcome = run(5, 2, work, BatchWatch.SILENT);
    assertThat(outcome.stopped()).isEqualTo("The catalogue is gone.");
    assertThat(outcome.left()).isEqualTo(5);
    assertThat(outcome.failed()).isEmpty();
  }

  @Test
  void filesThatNoRunHasMadeStay() throws IOException {
    Path foreign = Files.createDirectories(out.resolve("sides/s")).resolve("0.report.html");
    Files.writeString(foreign, "somebody's");
    BatchOutcome outcome = run(2, 1, (t, c, p) -> write(t), BatchWatch.SILENT);
    assertThat(outcome.failed()).hasSize(1);
    assertThat(rows().get("s/0.wav").attempts()).isZero();
    // nor does the next run take them for its own
    outcome = run(2, 1, (t, c, p) -> write(t), BatchWatch.SILENT);
    assertThat(outcome.failed()).hasSize(1);
    assertThat(foreign).hasContent("somebody's");
  }

  @Test
  void aClockThatGoesBackDisturbsNothing() throws IOException {
    assertThat(run(3, 1, (t, c, p) -> write(t), BatchWatch.SILENT).seconds()).isNotNegative();
    assertThat(in(SideState.DONE)).isEqualTo(3);
    assertThat(run(3, 1, (t, c, p) -> write(t), BatchWatch.SILENT).done()).isZero();
  }

  @Test
  void whatAKilledRunLeavesHiddenIsSweptByTheNext() throws IOException {
    run(2, 1, (t, c, p) -> write(t), BatchWatch.SILENT);
    try (Catalogue catalogue = Catalogue.open(out.resolve(Catalogue.NAME))) {
      PlannedSide side =
          BatchPlan.of(orders(1), Map.of(), BatchPlan.Wish.all(out, ReportWish.NONE, "test"))
              .sides()
              .get(0);
      catalogue.started(1, side, clock.instant());
    }
    Path hidden = Files.createDirectory(out.resolve("sides/s/.groovemend-123"));
    Files.writeString(hidden.resolve("0.restored.wav"), "half");
    Path others = Files.createDirectories(out.resolve("sides/s/.other"));
    try (Batch batch = Batch.open(out, 1, 1, clock)) {
      Map<String, SideRow> rows = batch.catalogue().rows();
      BatchPlan plan =
          BatchPlan.of(orders(2), rows, BatchPlan.Wish.all(out, ReportWish.NONE, "test"));
      assertThat(plan.sides()).hasSize(1);
      assertThat(plan.sides().get(0).why()).isEqualTo(PlannedSide.Why.UNFINISHED);
      BatchSettings settings =
          new BatchSettings(
              1,
              1,
              ReportWish.NONE,
              "test",
              false,
              null,
              clock,
              (trouble, order) -> new SideFailure("io", "x"),
              new BagGuard());
      batch.run(plan, Map.of(), rows, settings, Crew.alone(), BatchWatch.SILENT, true);
    }
    assertThat(hidden).doesNotExist();
    assertThat(others).exists();
  }

  @Test
  void aSecondRunIntoTheSameFolderIsRefusedUntilTheFirstIsOver() throws IOException {
    try (Batch first = Batch.open(out, 1, 1, clock)) {
      assertThat(first.catalogue().rows()).isEmpty();
      assertThatThrownBy(() -> Batch.open(out, 1, 1, clock))
          .isInstanceOf(CatalogueException.class)
          .hasMessageContaining("being written by another run")
          .hasMessageContaining("process " + ProcessHandle.current().pid());
    }
    Batch.open(out, 1, 1, clock).close();
  }

  @Test
  void aDiskWithTooLittleRoomIsSaidBeforeWorkIsSpent() {
    assertThatThrownBy(() -> new DiskRoom(out, 0).take(Long.MAX_VALUE / 2))
        .hasMessageContaining("too little room")
        .hasMessageContaining("MB");
  }

  @Test
  void aSideLongerThanItsShareGetsAllThreads() {
    PlannedSide small = CatalogueTest.side("s/a.wav");
    PlannedSide huge =
        new PlannedSide(
            small.order(), small.output(), "k", PlannedSide.Why.NEW, false, null, 100, 1);
    SideQueue queue = new SideQueue(List.of(huge, small, small, small, small), 2);
    assertThat(queue.next().hands()).isEqualTo(2);
    assertThat(queue.next().hands()).isEqualTo(1);
    assertThat(queue.next().hands()).isEqualTo(1);
    assertThat(queue.next().hands()).isEqualTo(1);
    // the last one is alone at the end
    assertThat(queue.next().hands()).isEqualTo(2);
    assertThat(queue.next()).isNull();
  }
}
