package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.RandomAccessFile;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BagsOfCollectionsTest {

  private static final int FRAMES = 75_000;

  @TempDir private Path dir;
  private Path shelf;
  private Path bag;
  private Path out;

  @BeforeEach
  void aBag() throws IOException {
    shelf = Files.createDirectories(dir.resolve("shelf"));
    Files.createDirectories(shelf.resolve("box"));
    SmallSide.write(shelf.resolve("box/a.wav"), 1, FRAMES);
    SmallSide.write(shelf.resolve("b 100%.wav"), 2, FRAMES);
    bag = dir.resolve("received/transfers");
    out = dir.resolve("out");
    CommandRun made = CommandRun.of("bag", shelf, "--make", bag);
    assertThat(made.code()).as(made.err()).isZero();
  }

  private CommandRun batch() {
    return CommandRun.of("batch", bag, "--out", out, "--stages", "clicks", "--no-page");
  }

  private static void flip(Path file) throws IOException {
    try (RandomAccessFile bytes = new RandomAccessFile(file.toFile(), "rw")) {
      bytes.seek(100_000);
      int b = bytes.read();
      bytes.seek(100_000);
      bytes.write(b ^ 1);
    }
  }

  @Test
  void aBagIsACollectionAndItsTextsAreNoPartOfIt() throws IOException {
    Map<String, String> before = BatchCommandTest.digests(bag);
    CommandRun run = batch();
    assertThat(run.code()).as(run.out() + run.err()).isZero();
    assertThat(run.out()).contains("2 sides done");
    assertThat(out.resolve("sides/transfers/box/a.restored.wav")).isRegularFile();
    assertThat(out.resolve("sides/transfers/b 100%.restored.wav")).isRegularFile();
    assertThat(BatchCommandTest.digests(bag)).isEqualTo(before);
    assertThat(batch().out()).contains("0 sides done, 2 done before");
  }

  @Test
  void aTransferThatIsNotTheListedOneIsNotTreated() throws IOException {
    flip(bag.resolve("data/box/a.wav"));
    CommandRun run = batch();
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out())
        .contains("1 side done", "1 failed")
        .contains("it is not the file that its bag lists")
        .contains("sha256");
    assertThat(out.resolve("sides/transfers/box/a.restored.wav")).doesNotExist();
  }

  @Test
  void workersOfAClusterCompareWithTheBagToo() throws IOException {
    flip(bag.resolve("data/box/a.wav"));
    SmallSide.write(bag.resolve("data/more.wav"), 3, FRAMES);
    StringWriter said = new StringWriter();
    int code =
        ClusterBatch.run(
            "cluster",
            (parcels, taker) -> {
              for (int i = 0; i < parcels.size(); i++) {
                taker.take(i, ClusterBatch.side(parcels.get(i), true, 1, () -> false));
              }
            },
            new PrintWriter(said),
            new PrintWriter(said),
            List.of(bag, "--out", out, "--stages", "clicks", "--no-page").stream()
                .map(String::valueOf)
                .toArray(String[]::new));
    assertThat(code).as(said.toString()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(said.toString())
        .contains("1 side done", "2 failed")
        .contains("it is not the file that its bag lists")
        .contains("no manifest of the bag lists it");
    assertThat(out.resolve("sides/transfers/box/a.restored.wav")).doesNotExist();
    assertThat(out.resolve("sides/transfers/more.restored.wav")).doesNotExist();
  }

  @Test
  void whatIsMissingAndWhatIsNotListedIsTold() throws IOException {
    Files.delete(bag.resolve("data/b 100%.wav"));
    SmallSide.write(bag.resolve("data/more.wav"), 3, FRAMES);
    CommandRun run = batch();
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out())
        .contains("1 side done", "1 failed")
        .contains("lists data/b 100%.wav, which is missing")
        .contains("no manifest of the bag lists it");
  }

  @Test
  void aWholeCollectionIsHandedOverAsABagAndChecked() throws IOException {
    assertThat(batch().code()).isZero();
    Path handed = dir.resolve("handed/cleaned");
    Map<String, String> before = new TreeMap<>(BatchCommandTest.digests(out));
    CommandRun made = CommandRun.of("bag", out, "--make", handed);
    assertThat(made.code()).as(made.err()).isZero();
    before.remove("batch.lock");
    assertThat(BatchCommandTest.digests(handed.resolve("data"))).isEqualTo(before);
    assertThat(CommandRun.of("bag", handed).code()).isZero();
    assertThat(CommandRun.of("bag", out, "--make", handed).code())
        .isEqualTo(ExitCode.OUTPUT_EXISTS);
    assertThat(CommandRun.of("bag", out, "--make", out.resolve("bag")).code())
        .isEqualTo(ExitCode.USAGE);
    flip(handed.resolve("data/sides/transfers/box/a.restored.wav"));
    CommandRun broken = CommandRun.of("bag", handed);
    assertThat(broken.code()).isEqualTo(ExitCode.VERIFICATION_FAILED);
    assertThat(broken.out()).contains("a.restored.wav was changed");
  }
}
