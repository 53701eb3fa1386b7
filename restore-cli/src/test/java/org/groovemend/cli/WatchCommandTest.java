package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command over real files; states of a folder one by one: {@code WatchedFolderTest}. */
@Tag("long")
class WatchCommandTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path REFERENCE =
      Path.of(System.getProperty("basedir", "."), "..", "docs", "reference");

  @TempDir private Path dir;

  private CommandRun once(Object... more) {
    List<Object> args =
        new ArrayList<>(
            List.of("watch", dir.resolve("in"), "--once", "--settled", "0.1", "--every", "0.05"));
    args.addAll(List.of(more));
    return CommandRun.of(args.toArray());
  }

  private Path side(String name) throws IOException {
    Path file = Files.createDirectories(dir.resolve("in")).resolve(name);
    SmallSide.write(file, 7);
    return file;
  }

  private static List<JsonNode> lines(String out) throws IOException {
    List<JsonNode> all = new ArrayList<>();
    for (String line : out.split("\n")) {
      all.add(JSON.readTree(line));
    }
    return all;
  }

  private static Set<?> complaints(String schema, JsonNode said) throws IOException {
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
        .getSchema(Files.readString(REFERENCE.resolve(schema)))
        .validate(said);
  }

  @Test
  void eachFileHasItsLineAndTheExitCodeSaysWhetherAPersonIsNeeded() throws IOException {
    side("a.wav");
    side("b \u00fc\u65e5.wav");
    CommandRun run = once();
    assertEquals(ExitCode.PERSON_NEEDED, run.code(), run.out() + run.err());
    assertTrue(run.out().contains("look    a.wav: "), run.out());
    assertTrue(run.out().contains("look    b \u00fc\u65e5.wav: "), run.out());
    assertTrue(run.out().contains("2 judged: 0 fine, 2 look, 0 redo; 0 not judged"), run.out());
    Path own = Files.writeString(dir.resolve("own.yaml"), "name: open\nlimits: {}\n");
    assertEquals(ExitCode.DONE, once("--limits", own).code());
  }

  @Test
  void whatCannotBeJudgedIsToldAndStopsNone() throws IOException {
    Path growing = side("growing.wav");
    byte[] half = java.util.Arrays.copyOf(Files.readAllBytes(growing), 200_000);
    Files.write(growing, half);
    Files.writeString(dir.resolve("in").resolve("text.wav"), "no side at all, but settled");
    side("good.wav");
    CommandRun run = once("--json");
    assertEquals(ExitCode.PARTLY_FAILED, run.code());
    List<JsonNode> said = lines(run.out());
    for (JsonNode line : said) {
      assertEquals(Set.of(), complaints("watch.schema.json", line), line.toString());
    }
    JsonNode end = said.get(said.size() - 1);
    assertEquals("end", end.get("event").asText());
    assertEquals(1, end.get("judged").asInt());
    assertEquals(2, end.get("failed").asInt());
    assertTrue(run.out().contains("\"event\":\"left\""), run.out());
    assertTrue(run.out().contains("the header says"), run.out());
  }

  @Test
  void resultsAreKeptAndKnownAtTheNextStart() throws IOException {
    Path a = side("a.wav");
    Path out = dir.resolve("out");
    CommandRun first = once("--out", out, "--page");
    assertEquals(ExitCode.PERSON_NEEDED, first.code(), first.err());
    JsonNode kept = JSON.readTree(Files.readAllBytes(out.resolve("a.wav.inspection.json")));
    assertEquals(Set.of(), complaints("inspection.schema.json", kept));
    assertTrue(Files.size(out.resolve("a.wav.inspection.png")) > 10_000);
    assertFalse(first.out().contains("judged before"));
    FileTime written = Files.getLastModifiedTime(out.resolve("a.wav.inspection.json"));

    CommandRun second = once("--out", out, "--page");
    assertEquals(ExitCode.PERSON_NEEDED, second.code());
    assertTrue(second.out().contains("(judged before)"), second.out());
    assertEquals(written, Files.getLastModifiedTime(out.resolve("a.wav.inspection.json")));

    // other limits, or another file, are another question
    assertFalse(once("--out", out, "--limits", "shellac").out().contains("judged before"));
    SmallSide.write(a, 8);
    Files.setLastModifiedTime(a, FileTime.fromMillis(1_000_000_000_000L));
    assertFalse(once("--out", out, "--limits", "shellac").out().contains("judged before"));
  }

  @Test
  void aFileOfSomebodyElseIsNotWrittenOver() throws IOException {
    side("a.wav");
    Path theirs = Files.writeString(dir.resolve("in").resolve("a.wav.inspection.json"), "{}");
    CommandRun run = once("--out", dir.resolve("in"));
    assertEquals(ExitCode.PARTLY_FAILED, run.code());
    assertTrue(run.out().contains("look    a.wav: "), "told nevertheless: " + run.out());
    assertTrue(run.out().contains("exists already"), run.out());
    assertEquals("{}", Files.readString(theirs));
    assertEquals(ExitCode.PERSON_NEEDED, once("--out", dir.resolve("in"), "--replace").code());
  }

  @Test
  void aCaptureIsJudgedWhenItIsFinishedAndTheWatchEndsWhenItIsTold() throws Exception {
    Path in = Files.createDirectories(dir.resolve("in"));
    StringWriter out = new StringWriter();
    var line = Main.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(out));
    int[] code = {-1};
    Thread watch =
        new Thread(
            () ->
                code[0] =
                    line.execute(
                        "watch", in.toString(), "--settled", "0.4", "--every", "0.05", "--quiet"));
    watch.start();
    Path whole = dir.resolve("whole.wav");
    SmallSide.write(whole, 7);
    byte[] bytes = Files.readAllBytes(whole);
    Path part = in.resolve("side.wav.part");
    for (int at = 0; at < bytes.length; at += 200_000) {
      int to = Math.min(bytes.length, at + 200_000);
      Files.write(
          part,
          java.util.Arrays.copyOfRange(bytes, at, to),
          java.nio.file.StandardOpenOption.CREATE,
          java.nio.file.StandardOpenOption.APPEND);
      Thread.sleep(20);
    }
    assertFalse(out.toString().contains("side.wav"), out.toString());
    Files.move(part, in.resolve("side.wav"));
    await(() -> out.toString().contains("look    side.wav: "));
    Files.delete(in.resolve("side.wav"));
    watch.interrupt();
    watch.join(30_000);
    assertEquals(ExitCode.INTERRUPTED, code[0]);
    assertTrue(out.toString().contains("1 judged: 0 fine, 1 look, 0 redo"), out.toString());
  }

  private static void await(BooleanSupplier done) throws InterruptedException {
    for (int k = 0; k < 1200 && !done.getAsBoolean(); k++) {
      Thread.sleep(50);
    }
    assertTrue(done.getAsBoolean());
  }

  @Test
  void whatCannotBeIsRefusedAtOnce() throws IOException {
    Path file = side("a.wav");
    for (Object[] args :
        new Object[][] {
          {"watch", dir.resolve("none"), "--once"},
          {"watch", file, "--once"},
          {"watch", dir, "--once", "--page"},
          {"watch", dir, "--once", "--every", "0"},
          {"watch", dir, "--once", "--patience", "1"},
          {"watch", dir, "--out", file, "--once"},
        }) {
      CommandRun run = CommandRun.of(args);
      assertEquals(ExitCode.USAGE, run.code(), run.out());
      assertTrue(run.err().startsWith("groovemend: "), run.err());
    }
  }
}
