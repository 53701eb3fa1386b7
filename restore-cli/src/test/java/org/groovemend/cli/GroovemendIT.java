package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The built jar as a person runs it. */
class GroovemendIT {

  private record Run(int code, String out, String err) {}

  @TempDir private Path dir;
  private Path side;
  private Path out;

  @BeforeEach
  void makeSide() throws IOException {
    side = dir.resolve("side.wav");
    out = dir.resolve("out");
    SmallSide.write(side, 7);
  }

  private Run run(Object... args) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx1280m",
                "-Djava.awt.headless=true",
                "-jar",
                System.getProperty("groovemend.jar")));
    Arrays.stream(args).map(String::valueOf).forEach(command::add);
    Path stdout = Files.createTempFile(dir, "stdout", "");
    Path stderr = Files.createTempFile(dir, "stderr", "");
    int code =
        new ProcessBuilder(command)
            .directory(dir.toFile())
            .redirectOutput(stdout.toFile())
            .redirectError(stderr.toFile())
            .start()
            .waitFor();
    Run run =
        new Run(
            code,
            Files.readString(stdout, StandardCharsets.UTF_8),
            Files.readString(stderr, StandardCharsets.UTF_8));
    Files.delete(stdout);
    Files.delete(stderr);
    return run;
  }

  private Run done(Object... args) throws IOException, InterruptedException {
    Run run = run(args);
    assertEquals(0, run.code(), run.err());
    assertEquals("", run.err());
    return run;
  }

  private Run fails(int code, Object... args) throws IOException, InterruptedException {
    Run run = run(args);
    assertEquals(code, run.code(), run.out() + run.err());
    assertFalse(run.err().contains("\tat "), run.err());
    return run;
  }

  private static Map<String, String> contents(Path folder) throws IOException {
    Map<String, String> all = new TreeMap<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        // ISO 8859-1 maps bytes to characters one to one
        all.put(
            folder.relativize(file).toString(),
            Files.getLastModifiedTime(file)
                + new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1));
      }
    }
    return all;
  }

  private Path made(String end) {
    return out.resolve("side." + end);
  }

  @Test
  void inspectTellsOfTheSideAndWritesNothing() throws Exception {
    Map<String, String> before = contents(dir);
    assertTrue(fails(ExitCode.PERSON_NEEDED, "inspect", side).out().contains("44100 Hz, 24-bit"));
    Run json = fails(ExitCode.PERSON_NEEDED, "inspect", side, "--captured", "riaa", "--json");
    assertEquals(1, new ObjectMapper().readTree(json.out()).get("inspect").asInt());
    assertEquals(before, contents(dir));
  }

  @Test
  void aSideIsRestoredVerifiedAndReverted() throws Exception {
    byte[] original = Files.readAllBytes(side);
    Object modified = Files.getLastModifiedTime(side);
    done("restore", side, "--out", out, "--threads", 2);
    Map<String, String> results = contents(out);
    assertEquals(
        List.of("side.ledger.jsonl", "side.removed.flac", "side.report.html", "side.restored.wav"),
        List.copyOf(results.keySet()));
    assertArrayEquals(original, Files.readAllBytes(side));
    assertEquals(modified, Files.getLastModifiedTime(side));

    fails(6, "restore", side, "--out", out);
    assertEquals(results, contents(out));
    byte[] restored = Files.readAllBytes(made("restored.wav"));
    byte[] removed = Files.readAllBytes(made("removed.flac"));
    done("restore", side, "--out", out, "--replace", "--threads", 1);
    assertArrayEquals(restored, Files.readAllBytes(made("restored.wav")), "threads change nothing");
    assertArrayEquals(removed, Files.readAllBytes(made("removed.flac")), "threads change nothing");

    Files.move(side, dir.resolve("away"));
    done("verify", made("ledger.jsonl"));
    done("revert", made("ledger.jsonl"), "--out", dir.resolve("back.wav"));
    assertArrayEquals(original, Files.readAllBytes(dir.resolve("back.wav")));

    byte[] flipped = restored.clone();
    flipped[flipped.length / 2] ^= 1;
    Files.write(made("restored.wav"), flipped);
    Run verified = fails(5, "verify", made("ledger.jsonl"));
    assertTrue(verified.out().contains("FAILS"), verified.out());
    assertTrue(verified.out().contains("restored"), verified.out());
    fails(5, "revert", made("ledger.jsonl"), "--out", dir.resolve("never.wav"));
    assertFalse(Files.exists(dir.resolve("never.wav")));

    SmallSide.write(dir.resolve("foreign.wav"), 8);
    fails(
        5,
        "revert",
        made("ledger.jsonl"),
        "--restored",
        dir.resolve("foreign.wav"),
        "--out",
        dir.resolve("never.wav"));
    assertFalse(Files.exists(dir.resolve("never.wav")));
  }

  /** Three digests are of lines that hold the time of the run, or of such a digest. */
  private static String withoutTime(Path ledger) throws IOException {
    return Files.readString(ledger, StandardCharsets.UTF_8)
        .replaceAll("\"(previous|seal)\":\"[0-9a-f]{64}\"", "\"$1\":\"\"")
        .replaceFirst("\"createdUtc\":\"[^\"]*\"", "");
  }

  @Test
  void anyNumberOfThreadsGivesTheSameFilesAndTheSameLedgerButForItsTime() throws Exception {
    // long enough for several segments of every stage
    SmallSide.write(side, 9, 25 * SmallSide.RATE);
    done("restore", side, "--out", out, "--threads", 1);
    String ledger = withoutTime(made("ledger.jsonl"));
    byte[] restored = Files.readAllBytes(made("restored.wav"));
    byte[] removed = Files.readAllBytes(made("removed.flac"));
    done("restore", side, "--out", out, "--threads", 4, "--replace");
    assertEquals(ledger, withoutTime(made("ledger.jsonl")));
    assertArrayEquals(restored, Files.readAllBytes(made("restored.wav")));
    assertArrayEquals(removed, Files.readAllBytes(made("removed.flac")));
    assertTrue(ledger.lines().filter(l -> l.contains("\"record\":\"edit\"")).count() > 100, ledger);

    done("restore", side, "--out", out, "--noise-db", 7, "--replace");
    assertNotEquals(ledger, withoutTime(made("ledger.jsonl")), "another treatment is told apart");
  }

  @Test
  void aRemovedFileThatIsNotTheOneOfTheLedgerGivesNoFileBack() throws Exception {
    done("restore", side, "--out", out);
    byte[] removed = Files.readAllBytes(made("removed.flac"));
    Path back = dir.resolve("back.wav");

    Path other = dir.resolve("other").resolve("side.wav");
    Files.createDirectory(other.getParent());
    SmallSide.write(other, 8);
    done("restore", other);
    Path foreign = other.resolveSibling("side.removed.flac");
    fails(5, "revert", made("ledger.jsonl"), "--removed", foreign, "--out", back);
    assertFalse(Files.exists(back));

    for (int at : List.of(removed.length / 2, removed.length - 1)) {
      byte[] flipped = removed.clone();
      flipped[at] ^= 1;
      Files.write(made("removed.flac"), flipped);
      fails(5, "revert", made("ledger.jsonl"), "--out", back);
      assertFalse(Files.exists(back));
    }
    Files.write(made("removed.flac"), Arrays.copyOf(removed, removed.length / 2));
    fails(5, "revert", made("ledger.jsonl"), "--out", back);
    Files.delete(made("removed.flac"));
    fails(5, "revert", made("ledger.jsonl"), "--out", back);
    assertFalse(Files.exists(back));

    Files.write(made("removed.flac"), removed);
    done("revert", made("ledger.jsonl"), "--out", back);
    assertArrayEquals(Files.readAllBytes(side), Files.readAllBytes(back));
  }

  @Test
  void theDemonstrationRunsToItsEndAndEveryFileItNamesIsThere() throws Exception {
    Run demo = done("demo", "--out", out);
    Matcher named = Pattern.compile("\\S*otter-umbrella\\.\\S+").matcher(demo.out());
    TreeSet<String> names = new TreeSet<>();
    while (named.find()) {
      Path file = Path.of(named.group());
      if (file.getParent() != null) {
        assertTrue(Files.size(file) > 0, named.group());
        names.add(file.getFileName().toString());
      }
    }
    assertEquals(contents(out).keySet(), names, "all that is there is named");
    assertEquals(8, names.size(), names.toString());
    assertArrayEquals(
        Files.readAllBytes(out.resolve("otter-umbrella.wav")),
        Files.readAllBytes(out.resolve("otter-umbrella.reverted.wav")));
    done("verify", out.resolve("otter-umbrella.ledger.jsonl"));
    Run again = fails(6, "demo", "--out", out);
    assertEquals(1, again.err().lines().count(), again.err());
  }

  @Test
  void clicksAloneTouchOnlyTheListedPlaces() throws Exception {
    done("restore", side, "--out", out, "--stages", "clicks");
    assertFalse(Files.exists(made("removed.flac")));
    String[] lines = done("edits", made("ledger.jsonl"), "--csv").out().split("\\R");
    assertTrue(lines[0].startsWith("start,end,channel,stage,"), lines[0]);
    boolean[][] listed = new boolean[2][SmallSide.FRAMES];
    for (String line : Arrays.asList(lines).subList(1, lines.length)) {
      String[] cells = line.split(",", -1);
      Arrays.fill(
          listed[Integer.parseInt(cells[2])],
          Integer.parseInt(cells[0]),
          Integer.parseInt(cells[1]),
          true);
    }
    byte[] before = Files.readAllBytes(side);
    byte[] after = Files.readAllBytes(made("restored.wav"));
    int dataAt = new String(after, StandardCharsets.ISO_8859_1).indexOf("data") + 8;
    int changed = 0;
    for (int i = 0; i < SmallSide.FRAMES * 6; i++) {
      if (before[SmallSide.DATA_AT + i] != after[dataAt + i]) {
        changed++;
        assertTrue(listed[i % 6 / 3][i / 6], "frame " + i / 6 + " is in no edit");
      }
    }
    assertTrue(changed > 0, "the clicks are repaired");
  }

  @Test
  void badInputIsRefusedInOneSentenceAndTheRestIsDone() throws Exception {
    Path bad = dir.resolve("bad.wav");
    Files.writeString(bad, "this is no sound at all, only words");
    Run refused = fails(4, "restore", bad, "--out", out);
    assertEquals(1, refused.err().lines().count(), refused.err());
    assertFalse(Files.exists(out), "nothing written");
    assertTrue(
        fails(4, "restore", dir.resolve("none.wav"), "--out", out).err().contains("none.wav"));
    assertFalse(Files.exists(out), "nothing written");
    fails(3, "restore", bad, side, "--out", out, "--stages", "clicks", "--captured", "flat");
    assertEquals(
        List.of("side.ledger.jsonl", "side.report.html", "side.restored.wav"),
        List.copyOf(contents(out).keySet()));
  }

  @Test
  void stagesThatCannotBeAreUsageFailures() throws Exception {
    Run unknown = fails(2, "restore", side, "--out", out, "--stages", "clicsk");
    assertTrue(unknown.err().contains("did you mean \"clicks\""), unknown.err());
    Run none = fails(2, "restore", side, "--out", out, "--stages", "curve");
    assertTrue(none.err().contains("curve"), none.err());
    assertFalse(Files.exists(out), "nothing written");
  }

  @Test
  void aPrintedTreatmentIsTheTreatmentUsed() throws Exception {
    Path mine = dir.resolve("mine.yaml");
    Files.writeString(mine, done("treatment").out());
    done("restore", side, "--out", out, "--treatment", mine, "--captured", "riaa");
    byte[] withFile = Files.readAllBytes(made("restored.wav"));
    done("restore", side, "--out", out, "--captured", "riaa", "--replace");
    assertArrayEquals(withFile, Files.readAllBytes(made("restored.wav")));
  }
}
