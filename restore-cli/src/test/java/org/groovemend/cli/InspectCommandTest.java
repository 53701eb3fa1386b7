package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.job.inspect.Inspect;
import org.groovemend.limits.Measure;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The schema is judged by a validator that is none of ours. */
@Tag("long")
class InspectCommandTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path DOCS = Path.of(System.getProperty("basedir", "."), "..", "docs");

  @TempDir private Path dir;

  private Path side(String name) throws IOException {
    Path file = dir.resolve(name);
    SmallSide.write(file, 7);
    return file;
  }

  private static Set<?> complaints(JsonNode said) throws IOException {
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
        .getSchema(Files.readString(DOCS.resolve("reference").resolve("inspection.schema.json")))
        .validate(said);
  }

  @Test
  void jsonFitsItsSchemaAndADamagedOneDoesNot() throws IOException {
    CommandRun run = CommandRun.of("inspect", side("a.wav"), "--json");
    assertEquals(ExitCode.PERSON_NEEDED, run.code(), "44.1 kHz without needle drop");
    JsonNode said = JSON.readTree(run.out());
    assertEquals(Set.of(), complaints(said));
    JsonNode findings = said.get("side").get("findings");
    assertEquals(Measure.keys().size(), findings.size());
    for (int i = 0; i < findings.size(); i++) {
      assertEquals(Measure.keys().get(i), findings.get(i).get("id").asText());
    }
    ((ObjectNode) findings.get(3)).put("verdict", "excellent");
    assertFalse(complaints(said).isEmpty());
  }

  @Test
  void severalSidesAreToldAndOneBadOneStopsNone() throws IOException {
    Path bad = Files.writeString(dir.resolve("bad.wav"), "no side at all");
    CommandRun run = CommandRun.of("inspect", side("a.wav"), bad, side("b.wav"), "--json");
    assertEquals(ExitCode.PARTLY_FAILED, run.code());
    JsonNode said = JSON.readTree(run.out());
    assertEquals(Set.of(), complaints(said));
    assertEquals(3, said.get("sides").size());
    assertEquals("bad.wav", said.get("sides").get(1).get("file").get("name").asText());
    assertEquals(4, said.get("sides").get(1).get("error").get("exitCode").asInt());
    assertTrue(run.err().contains("bad.wav"), run.err());
  }

  @Test
  void aFailureAloneFitsTheSchemaToo() throws IOException {
    CommandRun run = CommandRun.of("inspect", dir.resolve("none.wav"), "--json");
    assertEquals(ExitCode.INPUT_REFUSED, run.code());
    assertEquals(Set.of(), complaints(JSON.readTree(run.out())));
  }

  @Test
  void theSameFileTwiceIsRefused() throws IOException {
    Path a = side("a.wav");
    Path link = Files.createSymbolicLink(dir.resolve("link.wav"), a);
    CommandRun run = CommandRun.of("inspect", a, link);
    assertEquals(ExitCode.USAGE, run.code());
    assertTrue(run.err().contains("are the same file; name each side once"), run.err());
    assertEquals(ExitCode.USAGE, CommandRun.of("inspect").code());
  }

  @Test
  void aHousesOwnLimitsDecide() throws IOException {
    Path own =
        Files.writeString(
            dir.resolve("own.yaml"),
            "name: attic\nlimits:\n  sample-peak: {redo-above: -200, look-above: -300, source: \"house\"}\n");
    CommandRun run = CommandRun.of("inspect", side("a.wav"), "--limits", own);
    assertEquals(ExitCode.PERSON_NEEDED, run.code());
    assertTrue(run.out().contains("(limits: attic)"), run.out());
    assertTrue(run.out().contains("redo       Sample peak"), run.out());
    Files.writeString(own, "name: attic\nlimits: {loudness: {source: \"house\"}}\n");
    assertEquals(
        ExitCode.DONE, CommandRun.of("inspect", dir.resolve("a.wav"), "--limits", own).code());
  }

  @Test
  void badLimitsAreToldWithTheirLine() throws IOException {
    Path a = side("a.wav");
    String[][] bad = {
      {"limits:\n  hum: {look-above: 3}\n", "line 2", "source is missing"},
      {"limits:\n  humm: {look-above: 3, source: x}\n", "line 2", "humm"},
      {"limits:\n  walls: {look-above: 3, source: x}\n", "line 2", "expected"},
      {"limits:\n  walls: {expected: [latteral], source: x}\n", "line 2", "lateral"},
      {"limits:\n  hum: {look-above: 5, redo-above: 3, source: x}\n", "line 2", "further out"},
      {"based-on: shelac\nlimits: {}\n", "line 1", "shellac"},
    };
    for (String[] each : bad) {
      Path file = Files.writeString(dir.resolve("bad.yaml"), each[0]);
      CommandRun run = CommandRun.of("inspect", a, "--limits", file);
      assertEquals(ExitCode.USAGE, run.code(), each[0]);
      assertTrue(run.err().contains(each[1]) && run.err().contains(each[2]), run.err());
    }
    CommandRun run = CommandRun.of("inspect", a, "--limits", "shelac");
    assertEquals(ExitCode.USAGE, run.code());
    assertTrue(run.err().contains("shellac"), run.err());
  }

  @Test
  void limitsThatComeWithTheProgramCanBeReadAndPrinted() throws IOException {
    for (String name : LimitsFile.BUILT_IN) {
      assertFalse(LimitsFile.of(name).limits().isEmpty());
      CommandRun run = CommandRun.of("inspect", "--print-limits", name);
      assertEquals(0, run.code());
      Path copy = Files.writeString(dir.resolve("copy.yaml"), run.out());
      assertEquals(LimitsFile.of(name).limits(), LimitsFile.of(copy.toString()).limits());
    }
  }

  @Test
  void thePageIsWellFormedNeedsNothingElseAndIsNotWrittenOver() throws Exception {
    Path a = side("a.wav");
    Path page = dir.resolve("pages");
    assertEquals(ExitCode.PERSON_NEEDED, CommandRun.of("inspect", a, "--page", page).code());
    Path html = page.resolve("a.inspection.html");
    String text = Files.readString(html);
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(
            new java.io.ByteArrayInputStream(
                text.replaceFirst("<!DOCTYPE html>", "").getBytes("UTF-8")));
    assertFalse(text.contains("http://") || text.contains("https://") || text.contains("<script"));
    assertTrue(Files.size(page.resolve("a.inspection.png")) > 10_000);
    assertEquals(ExitCode.OUTPUT_EXISTS, CommandRun.of("inspect", a, "--page", page).code());
    assertEquals(text, Files.readString(html));
    CommandRun again = CommandRun.of("inspect", a, "--page", page, "--replace", "--threads", "1");
    assertEquals(ExitCode.PERSON_NEEDED, again.code());
    assertEquals(text, Files.readString(html), "same bytes on any number of threads");
    assertEquals(2, Files.list(page).count());
  }

  @Test
  void aFileThatGrowsWhileItIsReadIsRefused() throws IOException {
    Path a = side("a.wav");
    byte[] more = new byte[6000];
    InputRejectedException refused =
        assertThrows(
            InputRejectedException.class,
            () ->
                Inspect.run(
                    a,
                    CaptureCurve.FLAT,
                    Crew.alone(),
                    (step, done, total) -> {
                      try {
                        Files.write(a, more, StandardOpenOption.APPEND);
                      } catch (IOException e) {
                        throw new UncheckedIOException(e);
                      }
                    }));
    assertTrue(
        refused.getMessage().contains("wait until it is complete and try again"),
        refused.getMessage());
  }

  @Test
  void aChecksumBesideTheFileIsCompared() throws IOException {
    Path a = side("a.wav");
    String sha =
        JSON.readTree(CommandRun.of("inspect", a, "--json").out()).at("/side/file/sha256").asText();
    Path sidecar = dir.resolve("a.wav.sha256");
    Files.writeString(sidecar, sha + "  a.wav\n");
    assertTrue(CommandRun.of("inspect", a).out().contains("File unchanged unchanged"));
    Files.writeString(
        sidecar, sha.replace(sha.charAt(0), sha.charAt(0) == 'a' ? 'b' : 'a') + "  a.wav\n");
    assertTrue(CommandRun.of("inspect", a).out().contains("redo       File unchanged differs"));
  }
}
