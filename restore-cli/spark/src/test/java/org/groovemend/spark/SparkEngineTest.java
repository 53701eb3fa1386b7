package org.groovemend.spark;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.spark.SparkConf;
import org.groovemend.batch.cluster.ClusterEngine;
import org.groovemend.batch.cluster.ClusterException;
import org.groovemend.cli.ClusterBatch;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Spark in local mode, within this process. */
class SparkEngineTest {

  private static final int SIDES = 11;

  @TempDir private static Path dir;
  private static Path shelf;
  private static Map<String, String> expected;

  private record Run(int code, String out, String err) {}

  /** All parcels on this thread: what plain batch gives, as ClusterBatchTest shows. */
  private static void here(List<String> parcels, ClusterEngine.Taker taker) {
    for (int i = 0; i < parcels.size(); i++) {
      taker.take(i, ClusterBatch.side(parcels.get(i), true, 1, () -> false));
    }
  }

  private static SparkConf conf(String master) {
    return new SparkConf(false)
        .setMaster(master)
        .set("spark.driver.host", "127.0.0.1")
        .set("spark.driver.bindAddress", "127.0.0.1");
  }

  private static Run run(ClusterEngine engine, Path out) {
    StringWriter said = new StringWriter();
    StringWriter err = new StringWriter();
    int code =
        ClusterBatch.run(
            Submitted.PROGRAM,
            engine,
            new PrintWriter(said),
            new PrintWriter(err),
            shelf.toString(),
            "--out",
            out.toString(),
            "--no-page",
            "--now",
            "2026-01-02T03:04:05Z");
    return new Run(code, said.toString(), err.toString());
  }

  @BeforeAll
  static void shelf() throws IOException {
    shelf = dir.resolve("shelf");
    InventedSides.make(shelf, SIDES);
    Run run = run(SparkEngineTest::here, dir.resolve("here"));
    assertThat(run.code()).as(run.toString()).isEqualTo(3);
    expected = InventedSides.digests(dir.resolve("here/sides"));
    assertThat(expected).hasSizeGreaterThanOrEqualTo(2 * SIDES);
  }

  @Test
  void sidesAreTheSameToTheByteAndWhatFailsIsTold() throws IOException {
    Map<String, String> originals = InventedSides.digests(shelf);
    Path out = dir.resolve("spark");
    Run run = run(new SparkEngine(conf("local[2]")), out);
    assertThat(run.code()).as(run.toString()).isEqualTo(3);
    assertThat(run.out()).contains(SIDES + " sides done").contains("1 failed").contains("broken.wav");
    assertThat(run.err()).isEmpty();
    assertThat(InventedSides.digests(out.resolve("sides"))).isEqualTo(expected);
    assertThat(InventedSides.digests(shelf)).isEqualTo(originals);
    try (var all = Files.walk(out)) {
      assertThat(all.filter(p -> p.getFileName().toString().startsWith("."))).isEmpty();
    }
  }

  @Test
  void aSideThatKillsItsTasksIsGivenUpAndTheRestIsDone() throws IOException {
    SparkEngine spark = new SparkEngine(conf("local[2,2]"));
    ClusterEngine spoiling =
        (parcels, taker) -> {
          List<String> spoiled = new ArrayList<>(parcels);
          spoiled.set(4, "{");
          spark.run(spoiled, taker);
        };
    Path out = dir.resolve("spoiled");
    Run run = run(spoiling, out);
    assertThat(run.code()).as(run.toString()).isEqualTo(3);
    assertThat(run.out())
        .contains((SIDES - 1) + " sides done")
        .contains("2 failed")
        .contains("given up after 2 attempts");
    run = run(new SparkEngine(conf("local[1]")), out);
    assertThat(run.out()).contains("1 side done, " + (SIDES - 1) + " done before, 1 failed");
    assertThat(InventedSides.digests(out.resolve("sides"))).isEqualTo(expected);
  }

  @Test
  void aMasterThatIsNotThereIsToldInASentence() throws IOException {
    int port;
    try (ServerSocket closed = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = closed.getLocalPort();
    }
    Path out = dir.resolve("nobody");
    Run run = run(new SparkEngine(conf("spark://127.0.0.1:" + port)), out);
    assertThat(run.code()).isEqualTo(1);
    assertThat(run.err())
        .startsWith("groovemend: no Spark master answers at spark://127.0.0.1:" + port)
        .contains("Check --master")
        .hasLineCount(1);
    assertThat(InventedSides.digests(out.resolve("sides"))).isEmpty();
    assertThat(run(new SparkEngine(new SparkConf(false)), out).err()).contains("no Spark master was");
    assertThatThrownBy(() -> Masters.requireAnswer("spark://host"))
        .isInstanceOf(ClusterException.class)
        .hasMessageContaining("spark://host:7077");
    assertThat(run(new SparkEngine(conf("nonsense")), out).err())
        .contains("Spark (nonsense) ended before the work was done")
        .hasLineCount(1);
  }

  @Test
  void attemptsAreThoseThatSparkMakes() {
    assertThat(Masters.attempts("local", 4)).isEqualTo(1);
    assertThat(Masters.attempts("local[*]", 4)).isEqualTo(1);
    assertThat(Masters.attempts("local[4,3]", 4)).isEqualTo(3);
    assertThat(Masters.attempts("spark://a:1,b:2", 4)).isEqualTo(4);
  }
}
