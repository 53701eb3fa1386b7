package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.groovemend.batch.cluster.ClusterEngine;
import org.groovemend.batch.cluster.ClusterException;
import org.groovemend.batch.cluster.TryAgainException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What planner and workers do together, with engines that behave as badly as engines may. */
@Tag("long")
class ClusterBatchTest {

  private static final String NOW = "2026-01-02T03:04:05Z";
  private static final int FRAMES = 75_000;
  private static final int SIDES = 4;

  @TempDir private Path dir;
  private Path shelf;
  private Path out;

  @BeforeEach
  void folders() throws IOException {
    shelf = Files.createDirectory(dir.resolve("shelf"));
    out = dir.resolve("out");
    for (int i = 0; i < SIDES; i++) {
      SmallSide.write(shelf.resolve("s" + i + ".wav"), i, FRAMES);
    }
    SmallSide.write(shelf.resolve("s1.bwf"), 9, FRAMES);
    Files.writeString(shelf.resolve("broken.wav"), "no sound");
  }

  private List<Object> args(Object... more) {
    List<Object> all = new ArrayList<>(List.of(shelf, "--out", out, "--stages", "clicks"));
    all.addAll(List.of("--no-page", "--now", NOW));
    all.addAll(List.of(more));
    return all;
  }

  private CommandRun plain(Object... more) {
    List<Object> all = args(more);
    all.add(0, "batch");
    return CommandRun.of(all.toArray());
  }

  private CommandRun on(ClusterEngine engine, Object... more) {
    StringWriter said = new StringWriter();
    StringWriter err = new StringWriter();
    int code =
        ClusterBatch.run(
            "cluster",
            engine,
            new PrintWriter(said),
            new PrintWriter(err),
            args(more).stream().map(String::valueOf).toArray(String[]::new));
    return new CommandRun(code, said.toString(), err.toString());
  }

  /** One after the other, each once. */
  private static void simple(List<String> parcels, ClusterEngine.Taker taker) {
    for (int i = 0; i < parcels.size(); i++) {
      taker.begun(i);
      taker.take(i, ClusterBatch.side(parcels.get(i), true, 1, () -> false));
    }
  }

  /** Two attempts at each parcel at once, and both answers told. */
  private static void twice(List<String> parcels, ClusterEngine.Taker taker) throws IOException {
    ExecutorService workers = Executors.newFixedThreadPool(4);
    try {
      List<Future<String>> answers = new ArrayList<>();
      for (String parcel : parcels) {
        for (int k = 0; k < 2; k++) {
          answers.add(workers.submit(() -> ClusterBatch.side(parcel, true, 2, () -> false)));
        }
      }
      for (int i = 0; i < answers.size(); i++) {
        taker.begun(i / 2);
        taker.take(i / 2, answers.get(i).get());
      }
    } catch (InterruptedException | java.util.concurrent.ExecutionException e) {
      throw new IOException(e);
    } finally {
      workers.shutdown();
    }
  }

  private Map<String, String> sides() throws IOException {
    return BatchCommandTest.digests(out.resolve("sides"));
  }

  /** What two catalogues of the same collection must agree on: all but times and seals of time. */
  private Map<String, Map<String, String>> catalogue() throws IOException {
    CommandRun run = CommandRun.of("catalogue", out, "--json");
    assertThat(run.code()).as(run.err()).isZero();
    Map<String, Map<String, String>> rows = new TreeMap<>();
    for (JsonNode side : new ObjectMapper().readTree(run.out()).get("sides")) {
      Map<String, String> row = new TreeMap<>();
      side.properties().forEach(f -> row.put(f.getKey(), f.getValue().toString()));
      List.of("id", "started_utc", "ended_utc", "seconds").forEach(row::remove);
      rows.put(side.get("place").asText(), row);
    }
    return rows;
  }

  private void assertNothingHidden() throws IOException {
    try (var all = Files.walk(out)) {
      assertThat(all.filter(p -> p.getFileName().toString().startsWith("."))).isEmpty();
    }
  }

  @Test
  void everyWayGivesTheSameBytesAndTheSameCatalogue() throws IOException {
    Map<String, String> originals = BatchCommandTest.digests(shelf);
    assertThat(plain().code()).isEqualTo(ExitCode.PARTLY_FAILED);
    Map<String, String> whole = sides();
    Map<String, Map<String, String>> rows = catalogue();
    assertThat(whole).hasSize(2 * (SIDES + 1));
    for (ClusterEngine engine :
        List.<ClusterEngine>of(ClusterBatchTest::simple, ClusterBatchTest::twice)) {
      out = Files.createTempDirectory(dir, "out");
      CommandRun run = on(engine);
      assertThat(run.code()).as(run.err()).isEqualTo(ExitCode.PARTLY_FAILED);
      assertThat(run.out()).contains("5 sides done").contains("1 failed").contains("broken.wav");
      assertThat(sides()).isEqualTo(whole);
      assertThat(catalogue()).isEqualTo(rows);
      assertNothingHidden();
      assertThat(on(engine).out()).contains("0 sides done, 5 done before, 1 failed");
      assertThat(plain().out()).contains("0 sides done, 5 done before, 1 failed");
    }
    out = Files.createTempDirectory(dir, "out");
    for (int i = 1; i <= 3; i++) {
      plain("--shard", i + "/3");
    }
    assertThat(sides()).isEqualTo(whole);
    // what parts have done is taken over
    assertThat(on(ClusterBatchTest::simple).out()).contains("5 sides done (5 were there already)");
    assertThat(sides()).isEqualTo(whole);
    assertThat(BatchCommandTest.digests(shelf)).isEqualTo(originals);
  }

  @Test
  void workersThatAreLostAndAttemptsThatAreStoppedLeaveNothing() throws IOException {
    ClusterEngine engine =
        (parcels, taker) -> {
          for (int i = 0; i < parcels.size(); i++) {
            // done, but its worker is lost before it can say so
            ClusterBatch.side(parcels.get(i), true, 1, () -> false);
            AtomicInteger steps = new AtomicInteger();
            try {
              ClusterBatch.side(parcels.get(i), true, 1, () -> steps.incrementAndGet() > 3);
            } catch (CancellationException e) {
              // as wanted
            }
            if (i == 0) {
              taker.lost(i, "its workers were lost.");
            } else {
              taker.take(i, ClusterBatch.side(parcels.get(i), true, 1, () -> false));
            }
          }
        };
    CommandRun run = on(engine);
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out()).contains("4 sides done").contains("2 failed").contains("were lost");
    assertNothingHidden();
    assertThat(Files.readString(out.resolve("batch.log")))
        .contains("attempts that were not needed");
    Map<String, String> cluster;
    assertThat(on(ClusterBatchTest::simple).out()).contains("1 side done, 4 done before, 1 failed");
    cluster = sides();
    out = dir.resolve("plain");
    plain();
    assertThat(cluster).isEqualTo(sides());
  }

  @Test
  void whereAWorkerSeesOtherStorageEverySideIsToldInASentence() {
    AtomicInteger again = new AtomicInteger();
    ClusterEngine engine =
        (parcels, taker) -> {
          for (int i = 0; i < parcels.size(); i++) {
            // as on a machine whose folder of that name is another one, and one without originals
            String elsewhere =
                i % 2 == 0
                    ? parcels.get(i).replaceAll("\\.groovemend-cluster-", ".groovemend-other-")
                    : parcels.get(i).replace("/shelf/", "/self/");
            if (i < 2) {
              try {
                ClusterBatch.side(elsewhere, false, 1, () -> false);
              } catch (TryAgainException e) {
                again.incrementAndGet();
              }
            }
            taker.take(i, ClusterBatch.side(elsewhere, true, 1, () -> false));
          }
        };
    CommandRun run = on(engine);
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(again).hasValue(2);
    assertThat(run.out()).contains("0 sides done").contains((SIDES + 2) + " failed");
    assertThat(run.out().lines().filter(l -> l.contains("does not see it")))
        .hasSize(SIDES + 2)
        .allMatch(line -> line.contains("under the same path"));
  }

  @Test
  void resultsThatThePlannerDoesNotSeeAndFilesOfOthersAreTold() throws IOException {
    Files.createDirectories(out.resolve("sides/shelf"));
    Path foreign = Files.writeString(out.resolve("sides/shelf/s0.restored.wav"), "somebody's");
    ClusterEngine engine =
        (parcels, taker) -> {
          for (int i = 0; i < parcels.size(); i++) {
            String answer = ClusterBatch.side(parcels.get(i), true, 1, () -> false);
            taker.take(
                i, answer.replaceAll("\"hidden\":\"[^\"]+\"", "\"hidden\":\".groovemend-9\""));
          }
        };
    CommandRun run = on(engine);
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out())
        .contains("not seen here")
        .contains("s0.restored.wav exists already")
        .contains("0 sides done");
    assertThat(foreign).hasContent("somebody's");
    assertNothingHidden();
    // nor does the next run take them for its own
    assertThat(on(ClusterBatchTest::simple).out()).contains("s0.restored.wav exists already");
    assertThat(foreign).hasContent("somebody's");
  }

  @Test
  void anEngineThatEndsEarlyLosesNothing() throws IOException {
    ClusterEngine engine =
        (parcels, taker) -> {
          taker.take(0, ClusterBatch.side(parcels.get(0), true, 1, () -> false));
          taker.note("a worker is gone");
          throw new ClusterException("The master is gone.", null);
        };
    CommandRun run = on(engine);
    assertThat(run.code()).isEqualTo(ExitCode.UNEXPECTED);
    assertThat(run.err()).contains("The master is gone.");
    assertThat(run.out()).contains("1 side done").contains("5 left");
    assertThat(Files.readString(out.resolve("batch.log"))).contains("a worker is gone");
    assertThat(on(ClusterBatchTest::simple).out()).contains("4 sides done, 1 done before");
    assertThat(on((p, t) -> {}, "--again").err()).contains("ended before all sides were done");
  }

  @Test
  void whatTheEngineDecidesIsNoOptionHere() {
    for (List<String> option :
        List.of(List.of("--threads", "2"), List.of("--memory", "9"), List.of("--shard", "1/2"))) {
      CommandRun run = on(ClusterBatchTest::simple, option.toArray());
      assertThat(run.code()).isEqualTo(ExitCode.USAGE);
      assertThat(run.err()).contains(option.get(0)).contains("engine");
    }
    assertThat(on(ClusterBatchTest::simple, "--dry-run").out()).contains("6 to do");
    assertThat(out).doesNotExist();
    assertThat(on(ClusterBatchTest::simple, "--help").out()).contains("cluster transfers --out");
  }
}
