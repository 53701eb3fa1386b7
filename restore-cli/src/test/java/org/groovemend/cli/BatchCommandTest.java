package org.groovemend.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.groovemend.batch.Batch;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("long")
class BatchCommandTest {

  private static final String NOW = "2026-01-02T03:04:05Z";
  private static final int FRAMES = 75_000;

  @TempDir private Path dir;
  private Path shelf;
  private Path out;

  @BeforeEach
  void folders() throws IOException {
    shelf = Files.createDirectory(dir.resolve("shelf"));
    out = dir.resolve("out");
  }

  private Path side(String name, long seed) throws IOException {
    Path file = shelf.resolve(name);
    Files.createDirectories(file.getParent());
    SmallSide.write(file, seed, FRAMES);
    return file;
  }

  private CommandRun batch(Object... more) {
    List<Object> args = new ArrayList<>(List.of("batch", shelf, "--out", out));
    return CommandRun.of(with(args, more));
  }

  /** Clicks only and no pages, since what is tested is what happens around the sides. */
  private static Object[] with(List<Object> args, Object... more) {
    List<Object> all = new ArrayList<>(args);
    if (!Arrays.asList(more).contains("--stages")) {
      all.addAll(List.of("--stages", "clicks"));
    }
    all.addAll(List.of("--no-page", "--now", NOW));
    all.addAll(List.of(more));
    return all.toArray();
  }

  static Map<String, String> digests(Path folder) throws IOException {
    Map<String, String> digests = new TreeMap<>();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path file : all.filter(Files::isRegularFile).toList()) {
        digests.put(folder.relativize(file).toString(), Sha256.of(file));
      }
    }
    return digests;
  }

  private static Map<String, List<Object>> originals(Path folder) throws IOException {
    Map<String, List<Object>> found = new HashMap<>();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.toList()) {
        found.put(
            path.toString(),
            List.of(
                Files.isRegularFile(path) ? Sha256.of(path) : "",
                Files.getLastModifiedTime(path, LinkOption.NOFOLLOW_LINKS),
                Files.getPosixFilePermissions(path, LinkOption.NOFOLLOW_LINKS)));
      }
    }
    return found;
  }

  private Map<String, JsonNode> catalogue() throws IOException {
    CommandRun run = CommandRun.of("catalogue", out, "--json");
    assertThat(run.code()).as(run.err()).isZero();
    Map<String, JsonNode> sides = new TreeMap<>();
    new ObjectMapper()
        .readTree(run.out())
        .get("sides")
        .forEach(side -> sides.put(side.get("place").asText(), side));
    return sides;
  }

  @Test
  void aCollectionIsDoneOnceWhatFailsIsToldAndOriginalsStayAsTheyWere() throws IOException {
    side("78/a.wav", 1);
    side("78/schöne Lieder/ü.wav", 2);
    side("78/a.bwf", 3);
    Files.writeString(shelf.resolve("78/broken.wav"), "no sound");
    Files.createSymbolicLink(shelf.resolve("78/circle"), Path.of(".."));
    Map<String, List<Object>> before = originals(shelf);
    CommandRun run = batch();
    assertThat(run.code()).as(run.err()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out()).contains("3 sides done").contains("1 failed").contains("broken.wav");
    assertThat(digests(out).keySet())
        .contains(
            "sides/shelf/78/a.restored.wav",
            "sides/shelf/78/a.wav.restored.wav",
            "sides/shelf/78/schöne Lieder/ü.ledger.jsonl");
    assertThat(CommandRun.of("verify", out.resolve("sides/shelf/78/a.ledger.jsonl")).code())
        .isZero();
    Map<String, String> first = digests(out.resolve("sides"));
    run = batch();
    assertThat(run.out()).contains("0 sides done, 3 done before, 1 failed");
    assertThat(digests(out.resolve("sides"))).isEqualTo(first);
    assertThat(originals(shelf)).isEqualTo(before);
    JsonNode done = catalogue().get("shelf/78/schöne Lieder/ü.wav");
    assertThat(done.get("state").asText()).isEqualTo("done");
    assertThat(done.get("sha256").asText())
        .isEqualTo(Sha256.of(shelf.resolve("78/schöne Lieder/ü.wav")));
    assertThat(done.get("frames").asLong()).isEqualTo(FRAMES);
    assertThat(done.get("edits").asLong()).isPositive();
    assertThat(done.get("rate_hz").asInt()).isEqualTo(SmallSide.RATE);
    JsonNode failed = catalogue().get("shelf/78/broken.wav");
    assertThat(failed.get("error_kind").asText()).isEqualTo("inputRefused");
  }

  @Test
  void aDiskRateSlowsARunAndChangesNothing() throws IOException {
    Path a = side("a.wav", 1);
    assertThat(batch().code()).isZero();
    Map<String, String> first = digests(out.resolve("sides"));
    long began = System.nanoTime();
    CommandRun run = batch("--again", "--disk-rate", "0.3");
    double seconds = (System.nanoTime() - began) / 1e9;
    assertThat(run.code()).as(run.err()).isZero();
    assertThat(digests(out.resolve("sides"))).isEqualTo(first);
    // read at least twice and written once; a second is saved up
    assertThat(seconds).isGreaterThan(3 * Files.size(a) / 0.3e6 - 1);
    assertThat(batch("--disk-rate", "0").code()).isEqualTo(ExitCode.USAGE);
  }

  @Test
  void aDryRunTellsEverythingAndWritesNothing() throws IOException {
    side("a.wav", 1);
    CommandRun run = batch("--dry-run");
    assertThat(run.code()).isZero();
    assertThat(run.out()).contains("1 side found, 0 done before, 1 to do").contains("never done");
    assertThat(out).doesNotExist();
    JsonNode plan = new ObjectMapper().readTree(batch("--dry-run", "--json").out());
    assertThat(plan.get("sides").get(0).get("output").asText()).isEqualTo("sides/shelf/a");
    assertThat(plan.get("expectedSeconds").asDouble()).isPositive();
  }

  @Test
  void onlyWhatAChangeTouchesIsDoneAgain() throws IOException {
    side("78/a.wav", 1);
    side("lp/b.wav", 2);
    assertThat(batch().code()).isZero();
    Map<String, String> first = digests(out.resolve("sides"));
    Path rules =
        Files.writeString(
            dir.resolve("rules.yaml"),
            """
            rules: 1
            series:
              - name: shellac
                path: "shelf/78/**"
                treatment:
                  clicks: {expectedFalseAlarmsPerMinute: 4}
            """);
    CommandRun run = batch("--rules", rules);
    assertThat(run.code()).as(run.err()).isZero();
    assertThat(run.out()).contains("1 side done, 1 done before");
    assertThat(digests(out.resolve("sides")))
        .containsEntry("shelf/lp/b.ledger.jsonl", first.get("shelf/lp/b.ledger.jsonl"))
        .doesNotContainEntry("shelf/78/a.ledger.jsonl", first.get("shelf/78/a.ledger.jsonl"));
    assertThat(catalogue().get("shelf/78/a.wav").get("series").asText()).isEqualTo("shellac");
  }

  @Test
  void anOriginalThatOnlyLooksTouchedIsComparedAndOneThatChangedIsDoneAgain() throws IOException {
    Path a = side("a.wav", 1);
    Path b = side("b.wav", 2);
    assertThat(batch().code()).isZero();
    Map<String, String> first = digests(out.resolve("sides"));
    Files.setLastModifiedTime(a, FileTime.fromMillis(1_000_000_000_000L));
    SmallSide.write(b, 3, FRAMES);
    CommandRun run = batch();
    assertThat(run.out()).contains("2 sides done (1 were there already), 0 done before");
    assertThat(batch().out()).contains("0 sides done, 2 done before");
    Map<String, String> second = digests(out.resolve("sides"));
    assertThat(second)
        .containsEntry("shelf/a.ledger.jsonl", first.get("shelf/a.ledger.jsonl"))
        .doesNotContainEntry("shelf/b.ledger.jsonl", first.get("shelf/b.ledger.jsonl"));
    Files.delete(out.resolve("sides/shelf/a.restored.wav"));
    assertThat(batch().out()).contains("1 side done, 1 done before");
    assertThat(digests(out.resolve("sides"))).isEqualTo(second);
  }

  @Test
  void resultsWithoutACatalogueAreKnownByTheirLedgers() throws IOException {
    side("a.wav", 1);
    side("b.wav", 2);
    assertThat(batch().code()).isZero();
    Map<String, String> first = digests(out.resolve("sides"));
    for (String name :
        List.of("catalogue.sqlite", "catalogue.sqlite-wal", "catalogue.sqlite-shm")) {
      Files.deleteIfExists(out.resolve(name));
    }
    SmallSide.write(shelf.resolve("b.wav"), 5, FRAMES);
    CommandRun run = batch();
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out())
        .contains("1 side done (1 were there already), 0 done before, 1 failed")
        .contains("b.restored.wav exists already");
    assertThat(digests(out.resolve("sides"))).isEqualTo(first);
    assertThat(batch("--replace").out()).contains("1 side done, 1 done before, 0 failed");
  }

  @Test
  void manifestsSayWhatIsKnownOfSidesAndDiscs() throws IOException {
    side("d1/a.wav", 1);
    side("d1/b.wav", 2);
    side("d2/a.wav", 3);
    Path table =
        Files.writeString(
            shelf.resolve("list.csv"),
            """
            \uFEFFpath,disc,side,grooveOf,captured,clicks.expectedFalseAlarmsPerMinute,title
            ,SH-1,,A,,,
            d1/a.wav,SH-1,A,,,,"The Ballad, of Nowhere"
            d1/b.wav,SH-1,B,,,5,
            d2/a.wav,SH-2,A,,riaa,,
            """);
    CommandRun run =
        CommandRun.of(with(List.of("batch", table, "--out", out), "--dry-run", "--json"));
    assertThat(run.code()).as(run.err()).isZero();
    Map<String, JsonNode> plan = new TreeMap<>();
    new ObjectMapper()
        .readTree(run.out())
        .get("sides")
        .forEach(side -> plan.put(side.get("place").asText(), side));
    assertThat(plan.keySet()).containsExactly("shelf/d1/a.wav", "shelf/d1/b.wav", "shelf/d2/a.wav");
    assertThat(plan.get("shelf/d2/a.wav").at("/treatment/captured").asText()).isEqualTo("riaa");
    assertThat(
            plan.get("shelf/d1/b.wav")
                .at("/treatment/clicks/settings/expectedFalseAlarmsPerMinute")
                .asDouble())
        .isEqualTo(5);
    assertThat(plan.get("shelf/d1/a.wav").get("grooveOf").isNull()).isTrue();
    assertThat(plan.get("shelf/d1/b.wav").get("grooveOf").asText()).endsWith("a.wav");
    Path lines =
        Files.writeString(
            shelf.resolve("list.jsonl"),
            """
            {"path": "d1/a.wav", "disc": "SH-1", "side": "A", "facts": {"station": "Invented"}}
            {"path": "d1/b.wav", "disc": "SH-1", "leadIn": "0.1-0.8"}
            {"disc": "SH-1", "treatment": {"stages": ["clicks", "noise"], "noise": {"reductionDb": 5}}}
            """);
    run = CommandRun.of(with(List.of("batch", lines, "--out", out)));
    assertThat(run.code()).as(run.err()).isZero();
    Map<String, JsonNode> sides = catalogue();
    assertThat(sides.get("shelf/d1/a.wav").get("stages").asText()).isEqualTo("clicks,noise");
    assertThat(sides.get("shelf/d1/a.wav").at("/facts/station").asText()).isEqualTo("Invented");
  }

  @Test
  void aManifestOrRulesThatCannotBeAreRefusedWithTheirLine() throws IOException {
    side("a.wav", 1);
    Map<String, String> wrong =
        Map.of(
            "x.csv:path,nois.reductionDb\na.wav,3\n", "names no stage",
            "x.csv:path\na.wav\na.wav\n", "was named before",
            "x.csv:disc,side\n,A\n", "neither a path nor a disc",
            "x.jsonl:{\"path\": \"a.wav\", \"discs\": \"7\"}\n", "no setting \"discs\"",
            "x.jsonl:{\"path\": \"a.wav\"\n", "line 1",
            "x.jsonl:{\"path\": \"a.wav\", \"treatment\": {\"noise\": {\"reductionDb\": 900}}}\n",
                "reductionDb",
            "x.jsonl:\n", "names no side");
    for (Map.Entry<String, String> one : wrong.entrySet()) {
      int colon = one.getKey().indexOf(':');
      Path list =
          Files.writeString(
              shelf.resolve(one.getKey().substring(0, colon)), one.getKey().substring(colon + 1));
      CommandRun run = CommandRun.of(with(List.of("batch", list, "--out", out)));
      assertThat(run.code()).as(run.toString()).isEqualTo(ExitCode.USAGE);
      assertThat(run.err()).contains(one.getValue());
      assertThat(digestsOfSides()).isEmpty();
      Files.delete(list);
    }
    Path rules =
        Files.writeString(
            dir.resolve("r.yaml"), "rules: 1\nseries:\n  - name: x\n    treatment: {}\n");
    assertThat(batch("--rules", rules).err()).contains("line 3").contains("has no condition");
  }

  private Map<String, String> digestsOfSides() throws IOException {
    Path sides = out.resolve("sides");
    return Files.exists(sides) ? digests(sides) : Map.of();
  }

  @Test
  void partsTogetherGiveWhatTheWholeGives() throws IOException {
    for (int i = 0; i < 6; i++) {
      side("s" + i + ".wav", i);
    }
    side("s1.bwf", 9);
    assertThat(batch().code()).isZero();
    Map<String, String> whole = digests(out.resolve("sides"));
    out = dir.resolve("parts");
    for (int i = 1; i <= 3; i++) {
      assertThat(batch("--shard", i + "/3").code()).isZero();
    }
    assertThat(digests(out.resolve("sides"))).isEqualTo(whole);
    assertThat(batch("--shard", "4/3").code()).isEqualTo(ExitCode.USAGE);
    // a whole run afterwards knows the sides by their ledgers
    assertThat(batch().out()).contains("7 sides done (7 were there already)");
  }

  @Test
  void twoThreadsGiveTheBytesOfOneAndAllStagesWork() throws IOException {
    for (int i = 0; i < 3; i++) {
      SmallSide.write(shelf.resolve("s" + i + ".wav"), i);
    }
    String stages = "clicks,thumps,noise";
    assertThat(batch("--stages", stages, "--threads", 1).code()).isZero();
    Map<String, String> one = digests(out.resolve("sides"));
    out = dir.resolve("two");
    assertThat(batch("--stages", stages, "--threads", 2, "--memory", 1).code()).isZero();
    assertThat(digests(out.resolve("sides"))).isEqualTo(one);
    assertThat(one).hasSize(9);
  }

  @Test
  void aVanishedFolderIsToldAndTheRestIsDone() throws IOException {
    side("a.wav", 1);
    CommandRun run =
        CommandRun.of(with(List.of("batch", shelf, dir.resolve("vanished"), "--out", out)));
    assertThat(run.code()).isEqualTo(ExitCode.PARTLY_FAILED);
    assertThat(run.out()).contains("1 side done").contains("vanished: there is no such file");
    run = CommandRun.of(with(List.of("batch", dir.resolve("vanished"), "--out", out)));
    assertThat(run.code()).isEqualTo(ExitCode.INPUT_REFUSED);
    // what is gone for now stays in the catalogue
    assertThat(catalogue()).containsKey("shelf/a.wav");
  }

  @Test
  void veryLongNamesAndOutputWithinTheCollectionDoNoHarm() throws IOException {
    // 255 bytes, the most that common file systems take
    String name = "é".repeat(125) + "x.wav";
    side(name, 1);
    out = shelf.resolve("out");
    assertThat(batch().code()).isZero();
    assertThat(batch().out()).contains("0 sides done, 1 done before");
    assertThat(digestsOfSides()).hasSize(2);
  }

  @Test
  void aFolderInUseAndAFolderThatCannotBeWrittenAreRefused() throws IOException {
    side("a.wav", 1);
    try (Batch held = Batch.open(out, 1, 1, Clock.systemUTC())) {
      assertThat(held.catalogue().rows()).isEmpty();
      CommandRun run = batch();
      assertThat(run.code()).isEqualTo(ExitCode.UNEXPECTED);
      assertThat(run.err()).contains("being written by another run");
    }
    out = Files.writeString(dir.resolve("file"), "x");
    assertThat(batch().code()).isEqualTo(ExitCode.USAGE);
  }

  @Test
  void theCatalogueIsAskedInEveryForm() throws IOException {
    side("a.wav", 1);
    Files.writeString(shelf.resolve("b,\"x\".wav"), "no sound");
    batch();
    CommandRun csv = CommandRun.of("catalogue", out, "--csv", "--sort", "-place");
    List<String> lines = csv.out().lines().toList();
    assertThat(lines).hasSize(3);
    assertThat(lines.get(0)).startsWith("id,place,original,");
    assertThat(lines.get(1)).contains("\"shelf/b,\"\"x\"\".wav\"");
    CommandRun jsonl = CommandRun.of("catalogue", out, "--jsonl", "state=done");
    JsonNode one = new ObjectMapper().readTree(jsonl.out());
    assertThat(one.get("place").asText()).isEqualTo("shelf/a.wav");
    assertThat(one.size()).isEqualTo(lines.get(0).split(",").length);
    assertThat(CommandRun.of("catalogue", out).out()).contains("1 done, 1 failed");
    assertThat(CommandRun.of("catalogue", out, "--runs").out()).contains("1 done, 1 failed: over");
    assertThat(CommandRun.of("catalogue", out, "statee=done").code()).isEqualTo(ExitCode.USAGE);
    assertThat(CommandRun.of("catalogue", dir).err()).contains("there is no catalogue");
  }
}
