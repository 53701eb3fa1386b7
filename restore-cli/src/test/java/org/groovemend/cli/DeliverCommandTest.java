package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.SideFiles;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Tag("long")
class DeliverCommandTest {

  private static final String RECIPE =
      """
      recipe: 1
      sides: [a.wav]
      treatment: {captured: flat, stages: [clicks, noise]}
      speed: {factor: 1.01}
      tags: {title: Ünder a Made-up Moon, performer: Nobody}
      copies:
        - copy: preservation
        - {copy: objective, format: aiff}
        - {copy: service, format: flac, rate: 48000, depth: 16}
        - {copy: service, name: broadcast, format: wav, loudness: {target: -23, peak: -1}}
      """;

  @TempDir private static Path dir;
  private static byte[] original;
  private static Path made;

  @BeforeAll
  static void deliver() throws IOException {
    SmallSide.write(dir.resolve("a.wav"), 1);
    original = Files.readAllBytes(dir.resolve("a.wav"));
    Files.writeString(dir.resolve("r.yaml"), RECIPE);
    CommandRun run = CommandRun.of("deliver", dir.resolve("r.yaml"), "--quiet");
    assertEquals(0, run.code(), run.err());
    made = dir.resolve("r-delivery");
  }

  private static String sha256(byte[] bytes) throws Exception {
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
  }

  private static JsonNode json(Path file) throws IOException {
    return new ObjectMapper().readTree(file.toFile());
  }

  private static String samplesDigest(Path file) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      int n = (int) side.frames();
      long[][] words = new long[side.format().channels()][n];
      side.readWords(0, n, words, 0);
      SampleDigest digest = new SampleDigest(side.format());
      digest.update(words, 0, n);
      return digest.hex();
    }
  }

  private static Set<String> names(Path folder) throws IOException {
    try (Stream<Path> all = Files.list(folder)) {
      return all.map(path -> path.getFileName().toString())
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  @Test
  void everythingIsThereAndNothingElse() throws Exception {
    assertEquals(
        new TreeSet<>(
            List.of(
                "a.broadcast.wav",
                "a.broadcast.wav.json",
                "a.ledger.jsonl",
                "a.objective.aiff",
                "a.objective.aiff.json",
                "a.preservation.wav",
                "a.preservation.wav.json",
                "a.removed.flac",
                "a.report.html",
                "a.restored.wav",
                "a.service.flac",
                "a.service.flac.json",
                "a.technical.xml",
                "delivery.json")),
        names(made));
    assertArrayEquals(original, Files.readAllBytes(made.resolve("a.preservation.wav")));
    assertArrayEquals(original, Files.readAllBytes(dir.resolve("a.wav")));
    for (String name : names(made)) {
      if (name.endsWith(".json") && !name.equals("delivery.json")) {
        JsonNode record = json(made.resolve(name));
        assertEquals(sha256(original), record.at("/original/sha256").asText(), name);
        Path file = made.resolve(name.substring(0, name.length() - 5));
        assertEquals(sha256(Files.readAllBytes(file)), record.at("/file/sha256").asText(), name);
        assertEquals(Files.size(file), record.at("/file/bytes").asLong());
        assertEquals(samplesDigest(file), record.at("/file/samplesSha256").asText());
        assertEquals(
            name.contains("service") || name.contains("broadcast"), record.hasNonNull("ledger"));
        assertTrue(record.at("/loudness/integratedLufs").isNumber(), name);
      }
    }
    CommandRun verify = CommandRun.of("verify", made);
    assertEquals(0, verify.code(), verify.out());
    assertFalse(verify.out().contains("FAILS"), verify.out());
    assertTrue(verify.out().contains("Every copy goes back to its original"), verify.out());
  }

  /** What the command {@code speed} makes of the same files, by another way, is the same sound. */
  @Test
  void timeIsChangedAsTheCommandSpeedDoes() throws Exception {
    CommandRun transfer =
        CommandRun.of(
            "speed", dir.resolve("a.wav"), "--factor", "1.01", "--out", dir.resolve("t.wav"));
    assertEquals(0, transfer.code(), transfer.err());
    double[][] objective = SoundOf.file(made.resolve("a.objective.aiff"));
    assertArrayEquals(SoundOf.file(dir.resolve("t.wav"))[1], objective[1]);
    CommandRun clean =
        CommandRun.of(
            "speed",
            made.resolve("a.restored.wav"),
            "--factor",
            "1.01",
            "--out",
            dir.resolve("c.wav"));
    assertEquals(0, clean.code(), clean.err());
    double gain =
        StrictMath.pow(
            10,
            json(made.resolve("a.broadcast.wav.json")).at("/steps/level/gainDb").asDouble() / 20);
    double[][] broadcast = SoundOf.file(made.resolve("a.broadcast.wav"));
    double[][] same = SoundOf.file(dir.resolve("c.wav"));
    assertEquals(same[0].length, broadcast[0].length);
    for (int i = 0; i < same[0].length; i++) {
      // both dithered and rounded to 24 bits
      assertEquals(gain * same[0][i], broadcast[0][i], (1.5 + 1.5 * gain) / (1 << 23));
    }
  }

  @Test
  void formsRatesAndDepthsAreAsAsked() throws IOException {
    try (SideReader service = SideFiles.open(made.resolve("a.service.flac"));
        SideReader objective = SideFiles.open(made.resolve("a.objective.aiff"))) {
      assertEquals(AudioFormat.pcm(48_000, 2, 16), service.format());
      assertEquals(AudioFormat.pcm(SmallSide.RATE, 2, 24), objective.format());
      assertEquals("AIFF", objective.container());
      assertEquals(
          (long) Math.ceil(SmallSide.FRAMES * 48_000.0 / SmallSide.RATE / 1.01), service.frames());
    }
    String flac = Files.readString(made.resolve("a.service.flac"), StandardCharsets.ISO_8859_1);
    assertTrue(flac.contains("ARTIST=Nobody"));
  }

  @Test
  void theBroadcastCopyIsAsLoudAsAskedAndSaysSo() throws IOException {
    JsonNode record = json(made.resolve("a.broadcast.wav.json"));
    assertEquals(-23, record.at("/loudness/integratedLufs").asDouble(), 0.02);
    assertTrue(record.at("/loudness/truePeakDbtp").asDouble() <= -0.99, record.toString());
    CommandRun heard = CommandRun.of("inspect", made.resolve("a.broadcast.wav"), "--json");
    // a few seconds without lead-in are for a person to look at
    assertEquals(ExitCode.PERSON_NEEDED, heard.code(), heard.err());
    byte[] all = Files.readAllBytes(made.resolve("a.broadcast.wav"));
    int bext = new String(all, StandardCharsets.ISO_8859_1).indexOf("bext") + 8;
    BroadcastExtension extension =
        BroadcastExtension.parse(java.util.Arrays.copyOfRange(all, bext, bext + 2000));
    assertEquals(-2300, extension.loudness()[0], 2);
    assertEquals("Invented side, made by a test", extension.description());
    assertTrue(extension.codingHistory().contains("service copy; speed x 1.010000; gain"));
  }

  @Test
  void sameBytesOnAnyNumberOfThreads() throws Exception {
    List<String> sums = new ArrayList<>();
    for (int threads : new int[] {1, 3}) {
      Path out = dir.resolve("threads" + threads);
      CommandRun run =
          CommandRun.of("deliver", dir.resolve("r.yaml"), "--out", out, "--threads", threads);
      assertEquals(0, run.code(), run.err());
      sums.add(
          sha256(Files.readAllBytes(out.resolve("a.service.flac")))
              + sha256(Files.readAllBytes(out.resolve("a.objective.aiff"))));
    }
    assertEquals(sums.get(0), sums.get(1));
  }

  private static Path copyOf(Path folder, String name) throws IOException {
    Path copy = dir.resolve(name);
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path d, BasicFileAttributes a)
              throws IOException {
            Files.createDirectories(copy.resolve(folder.relativize(d).toString()));
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path f, BasicFileAttributes a) throws IOException {
            Files.copy(f, copy.resolve(folder.relativize(f).toString()));
            return FileVisitResult.CONTINUE;
          }
        });
    return copy;
  }

  private static List<JsonNode> failing(Path given) throws IOException {
    CommandRun run = CommandRun.of("verify", given, "--json");
    JsonNode told = new ObjectMapper().readTree(run.out());
    List<JsonNode> failing = new ArrayList<>();
    told.get("checks")
        .forEach(
            check -> {
              if (check.get("outcome").asText().equals("FAILS")) {
                failing.add(check);
              }
            });
    assertEquals(failing.isEmpty() ? 0 : ExitCode.VERIFICATION_FAILED, run.code(), run.err());
    return failing;
  }

  /** One flipped bit in any file: exactly what speaks of that file fails. */
  @Test
  void everyDamagedFileIsNamed() throws Exception {
    Path copy = copyOf(made, "damaged");
    for (String name : names(copy)) {
      Path file = copy.resolve(name);
      byte[] whole = Files.readAllBytes(file);
      byte[] damaged = whole.clone();
      damaged[whole.length / 2] ^= 1;
      Files.write(file, damaged);
      List<JsonNode> failing = failing(copy);
      assertFalse(failing.isEmpty(), name);
      JsonNode first = failing.get(0);
      if (name.equals("delivery.json")) {
        assertEquals("delivery-record", first.get("name").asText());
        assertEquals(1, failing.size());
      } else {
        assertEquals("delivered-file", first.get("name").asText());
        assertTrue(first.get("words").asText().startsWith(name + " "), first.toString());
        // the ledger's own checks tell where the clean copy or what was removed is damaged
        boolean ofLedger = name.equals("a.restored.wav") || name.equals("a.removed.flac");
        assertEquals(!ofLedger, failing.size() == 1, failing.toString());
      }
      Files.delete(file);
      if (!name.equals("delivery.json")) {
        assertEquals(name + " is missing.", failing(copy).get(0).get("words").asText());
      }
      Files.write(file, whole);
    }
    assertEquals(List.of(), failing(copy));
  }

  /** Seals as the reference page says: digest of the bytes with zeros in the seal's place. */
  private static void reseal(Path file, String text) throws Exception {
    String zeros = "0".repeat(64);
    String open = text.replaceFirst("\"seal\" : \"[0-9a-f]{64}\"", "\"seal\" : \"" + zeros + "\"");
    String seal = sha256(open.getBytes(StandardCharsets.UTF_8));
    Files.writeString(file, open.replace("\"seal\" : \"" + zeros, "\"seal\" : \"" + seal));
  }

  /**
   * A forged record, sealed anew and entered in the record of the delivery, still breaks a link.
   */
  @ParameterizedTest
  @CsvSource({
    "/original/sha256, link-to-original",
    "/file/sha256, link-to-file",
    "/ledger/sha256, link-to-ledger",
    "/cleanCopy/sha256, link-to-clean-copy",
  })
  void aForgedLinkIsFound(String field, String check) throws Exception {
    Path copy = copyOf(made, "forged" + check);
    Path record = copy.resolve("a.service.flac.json");
    byte[] before = Files.readAllBytes(record);
    String text = Files.readString(record);
    String digest = json(record).at(field).asText();
    reseal(record, text.replace(digest, "f".repeat(64)));
    Path all = copy.resolve("delivery.json");
    reseal(all, Files.readString(all).replace(sha256(before), sha256(Files.readAllBytes(record))));
    List<JsonNode> failing = failing(copy);
    assertEquals(1, failing.size(), failing.toString());
    assertEquals(check, failing.get(0).get("name").asText());
    assertTrue(failing.get(0).get("words").asText().contains("a.service.flac"));
  }

  @Test
  void oneCopyAloneGoesBackToo() throws Exception {
    assertEquals(List.of(), failing(made.resolve("a.service.flac.json")));
    CommandRun given = CommandRun.of("verify", made, "--original", dir.resolve("a.wav"), "--json");
    assertEquals(0, given.code(), given.out());
    SmallSide.write(dir.resolve("other.wav"), 9);
    CommandRun other = CommandRun.of("verify", made, "--original", dir.resolve("other.wav"));
    assertEquals(ExitCode.VERIFICATION_FAILED, other.code());
    assertTrue(other.out().contains("other.wav is not an original of this delivery"), other.out());
  }

  @Test
  void theTechnicalMetadataNameEveryCopy() throws Exception {
    javax.xml.parsers.DocumentBuilderFactory factory =
        javax.xml.parsers.DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    var objects =
        factory
            .newDocumentBuilder()
            .parse(made.resolve("a.technical.xml").toFile())
            .getElementsByTagNameNS("*", "audioObject");
    assertEquals(4, objects.getLength());
    for (int i = 0; i < 4; i++) {
      String text = objects.item(i).getTextContent();
      assertTrue(text.contains(sha256(original)), "goes back to the original: " + text);
    }
    assertTrue(objects.item(2).getTextContent().contains("speed x 1.010000"));
  }

  /** Files of bands, laid end to end, are the words of the copy that is not cut. */
  @Test
  void bandsAreTheWholeWordForWord() throws Exception {
    Path recipe = dir.resolve("bands.yaml");
    Files.writeString(dir.resolve("bands.txt"), "0:00.5 First & last\n0:01.7 Second\n");
    Files.writeString(
        recipe,
        """
        recipe: 1
        sides: [{transfer: a.wav, bands: {list: bands.txt, exact: true}, tags: {title: All}}]
        treatment: {captured: flat, stages: [clicks]}
        speed: {factor: 1.02}
        copies:
          - {copy: service, format: wav, rate: 48000, depth: 16}
          - {copy: service, name: band, format: wav, rate: 48000, depth: 16, bands: true}
          - {copy: objective, name: band2, format: flac, bands: true}
        """);
    CommandRun run = CommandRun.of("deliver", recipe);
    assertEquals(0, run.code(), run.err());
    Path out = dir.resolve("bands-delivery");
    assertEquals(List.of(), failing(out));
    double[][] whole = SoundOf.file(out.resolve("a.service.wav"));
    double[][] first = SoundOf.file(out.resolve("a.band.01.wav"));
    double[][] second = SoundOf.file(out.resolve("a.band.02.wav"));
    int start = (int) Math.ceil(0.5 * 48_000 / 1.02);
    int join = (int) Math.ceil(1.7 * 48_000 / 1.02);
    assertEquals(join - start, first[0].length);
    JsonNode band = json(out.resolve("a.band.02.wav.json")).get("band");
    assertEquals(Math.round(1.7 * SmallSide.RATE), band.get("firstFrame").asLong());
    assertEquals("Second", band.get("title").asText());
    for (int c = 0; c < 2; c++) {
      assertArrayEquals(java.util.Arrays.copyOfRange(whole[c], start, join), first[c]);
      assertArrayEquals(
          java.util.Arrays.copyOfRange(whole[c], join, join + second[c].length), second[c]);
    }
    String text = Files.readString(out.resolve("a.band.01.wav"), StandardCharsets.ISO_8859_1);
    assertTrue(text.contains("First & last") && !text.contains("All"), "the band's own title");
    assertTrue(
        Files.readString(out.resolve("a.band2.02.flac"), StandardCharsets.ISO_8859_1)
            .contains("TRACKTOTAL=2"));
    byte[] bytes = Files.readAllBytes(out.resolve("a.band.02.wav"));
    int bext = new String(bytes, StandardCharsets.ISO_8859_1).indexOf("bext") + 8;
    assertEquals(
        join,
        BroadcastExtension.parse(java.util.Arrays.copyOfRange(bytes, bext, bext + 2000))
            .timeReference());
  }

  @Test
  void aBagIsABag() throws Exception {
    Path recipe = dir.resolve("bag.yaml");
    Files.writeString(
        recipe,
        "recipe: 1\nsides: [a.wav]\ncopies: [{copy: preservation}]\nbag: {Contact-Name: X}\n");
    assertEquals(0, CommandRun.of("deliver", recipe).code());
    Path bag = dir.resolve("bag-delivery");
    assertEquals(
        Set.of(
            "bagit.txt", "bag-info.txt", "manifest-sha256.txt", "tagmanifest-sha256.txt", "data"),
        names(bag));
    assertTrue(Files.readString(bag.resolve("bag-info.txt")).contains("Contact-Name: X\n"));
    assertEquals(List.of(), failing(bag));
    Files.writeString(bag.resolve("bag-info.txt"), "Contact-Name: Y\n");
    List<JsonNode> failing = failing(bag);
    assertEquals("bag", failing.get(0).get("name").asText());
    assertTrue(failing.toString().contains("bag-info.txt"), failing.toString());
  }

  /** A restoration made before gives the same service copy as one made now. */
  @Test
  void aLedgerIsTakenOver() throws Exception {
    Path recipe = dir.resolve("again.yaml");
    Files.writeString(
        recipe,
        """
        recipe: 1
        sides: [{transfer: a.wav, ledger: r-delivery/a.ledger.jsonl}]
        speed: {factor: 1.01}
        tags: {title: Ünder a Made-up Moon, performer: Nobody}
        copies: [{copy: service, rate: 48000, depth: 16}]
        """);
    CommandRun run = CommandRun.of("deliver", recipe);
    assertEquals(0, run.code(), run.err());
    Path again = dir.resolve("again-delivery");
    assertArrayEquals(
        Files.readAllBytes(made.resolve("a.service.flac")),
        Files.readAllBytes(again.resolve("a.service.flac")));
    assertEquals(List.of(), failing(again));

    SmallSide.write(dir.resolve("b.wav"), 2);
    Files.writeString(
        recipe, "recipe: 1\nsides: [{transfer: b.wav, ledger: r-delivery/a.ledger.jsonl}]\n");
    refused(CommandRun.of("deliver", recipe, "--out", dir.resolve("never")), "of another file");
    Path stale = copyOf(made, "stale");
    byte[] clean = Files.readAllBytes(stale.resolve("a.restored.wav"));
    clean[clean.length - 9] ^= 4;
    Files.write(stale.resolve("a.restored.wav"), clean);
    Files.writeString(
        recipe, "recipe: 1\nsides: [{transfer: a.wav, ledger: stale/a.ledger.jsonl}]\n");
    refused(
        CommandRun.of("deliver", recipe, "--out", dir.resolve("never")),
        "a.restored.wav is not the file");
  }

  /** The known curve of a ledger makes the same objective copy as that of the treatment. */
  @Test
  void theCurveOfALedgerIsTakenOver() throws Exception {
    Path now = dir.resolve("curve.yaml");
    Files.writeString(
        now,
        """
        recipe: 1
        sides: [a.wav]
        treatment: {captured: flat, stages: [clicks, curve], curve: {apply: riaa, gainDb: -12}}
        copies: [{copy: objective}, {copy: service}]
        """);
    assertEquals(0, CommandRun.of("deliver", now).code());
    Path later = dir.resolve("later.yaml");
    Files.writeString(
        later,
        """
        recipe: 1
        sides: [{transfer: a.wav, ledger: curve-delivery/a.ledger.jsonl}]
        copies: [{copy: objective}, {copy: service}]
        """);
    CommandRun run = CommandRun.of("deliver", later);
    assertEquals(0, run.code(), run.err());
    for (String name : List.of("a.objective.flac", "a.service.flac")) {
      assertArrayEquals(
          Files.readAllBytes(dir.resolve("curve-delivery").resolve(name)),
          Files.readAllBytes(dir.resolve("later-delivery").resolve(name)));
    }
    JsonNode curve =
        json(dir.resolve("later-delivery").resolve("a.objective.flac.json")).at("/steps/curve");
    assertEquals("riaa", curve.at("/applied/curve").asText());
    assertTrue(curve.get("sections").size() > 0);
  }

  private static void refused(CommandRun run, String says) throws IOException {
    assertTrue(run.code() != 0, run.out());
    assertEquals("", run.out());
    assertEquals(1, run.err().strip().lines().count(), run.err());
    assertTrue(run.err().contains(says), run.err());
    assertFalse(Files.exists(dir.resolve("never")), "something was written");
    assertFalse(names(dir).stream().anyMatch(n -> n.startsWith(".groovemend")), "hidden rest");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "treatment: {stages: [clicks, curve], curve: {apply: flatt}} | did you mean \"flat\"",
        "speed: {played: 200, meant: 78.26} | line 3: \"200\" is no speed of a disc",
        "speed: {played: 78.26} | give both",
        "speed: {factor: 9} | outside 0.25 to 4",
        "speed: {drift: [{seconds: 99, factor: 1.1}]} | the side ends at 3.000 s",
        "copeis: [] | line 3: there is no setting \"copeis\" (did you mean \"copies\"?)",
        "treatment: {clicks: {sensitivty: 3}} | line 3: there is no setting \"treatment.clicks.sensitivty\"",
        "copies: [{copy: service, formt: wav}] | \"copies[0].formt\" (did you mean \"format\"?)",
        "copies: [{copy: servce}] | did you mean \"service\"",
        "copies: [{copy: service, format: mp3}] | not one of wav, flac, aiff",
        "copies: [{copy: service, depth: float32}] | FLAC cannot hold float samples",
        "copies: [{copy: service, depth: 20}] | not one of 16, 24, 32",
        "copies: [{copy: service, rate: 4000}] | outside 8000 to 384000",
        "copies: [{copy: service, gain: 3, loudness: -23}] | give one of them",
        "copies: [{copy: service, gain: 40}] | would have to be cut off at full scale",
        "copies: [{copy: service}, {copy: service}] | would both be a.service.flac",
        "copies: [{copy: service, name: restored, format: wav}] | would both be a.restored.wav",
        "copies: [{copy: preservation, rate: 48000}] | byte for byte",
        "copies: [] | no copy is wanted",
        "{copies: [{copy: preservation}], speed: {factor: 1.1}} | no effect",
        "tags: {titel: x} | \"tags.titel\" (did you mean \"title\"?)",
        "tags: {date: yesterday} | date",
        "cover: none.jpg | no such picture",
        "bag: 7 | key: value",
        "bands: find | no copy is to be cut",
        "copies: [{copy: service, bands: true}] | nothing says how the side is",
        "copies: [{copy: preservation, bands: true}] | byte for byte",
        "{copies: [{copy: service, bands: true}], sbands: none.txt} | there is no list",
        "{copies: [{copy: service, bands: true}], sbands: {count: -1}} | cannot be",
        "{copies: [{copy: service, bands: true}], sbands: {exact: true}} | a list must tell",
        "disc: {speed: fast} | \"fast\"; give a number of rpm",
        "ditherSeed: x | no whole number",
      })
  void whatCannotBeIsOneSentenceAndNothingIsWritten(String line, String says) throws IOException {
    Path recipe = dir.resolve("bad.yaml");
    String more =
        line.startsWith("{")
            ? line.substring(1, line.length() - 1)
                .replace("}], sbands", "}]\nbands")
                .replace("}], s", "}]\ns")
            : line;
    Files.writeString(recipe, "recipe: 1\nsides: [a.wav]\n" + more + "\n");
    refused(CommandRun.of("deliver", recipe, "--out", dir.resolve("never")), says);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "recipe: 2\n", "sides: [a.wav]\n", "recipe: 1\n", "- 1\n", "a: [\n"})
  void whatIsNoRecipeIsRefused(String text) throws IOException {
    Path recipe = dir.resolve("bad.yaml");
    Files.writeString(recipe, text);
    refused(CommandRun.of("deliver", recipe, "--out", dir.resolve("never")), "");
  }

  @Test
  void placesThatCannotBeAreSaid() throws IOException {
    Path recipe = dir.resolve("r.yaml");
    CommandRun again = CommandRun.of("deliver", recipe);
    assertEquals(ExitCode.OUTPUT_EXISTS, again.code());
    refused(
        CommandRun.of("deliver", recipe, "--out", dir.resolve("a.wav").resolve("x")), "is a file");
    refused(CommandRun.of("deliver", dir.resolve("none.yaml")), "no such file");
    refused(CommandRun.of("deliver"), "name a recipe");
    refused(
        CommandRun.of("deliver", recipe, dir.resolve("a.wav"), "--out", dir.resolve("never")),
        "in one of the two places");
    Files.writeString(dir.resolve("bare.yaml"), "recipe: 1\n");
    refused(
        CommandRun.of(
            "deliver",
            dir.resolve("bare.yaml"),
            dir.resolve("gone.wav"),
            "--out",
            dir.resolve("never")),
        "gone.wav: there is no such file");
  }

  @Test
  void aPlanWritesNothing() throws IOException {
    Set<String> before = names(dir);
    CommandRun run =
        CommandRun.of("deliver", dir.resolve("r.yaml"), "--plan", "--out", dir.resolve("never"));
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("a.service.flac") && run.out().contains("48000 Hz"), run.out());
    assertEquals(before, names(dir));
    JsonNode told =
        new ObjectMapper()
            .readTree(CommandRun.of("deliver", dir.resolve("r.yaml"), "--plan", "--json").out());
    assertEquals(4, told.get("files").size());
    assertEquals(
        json(made.resolve("a.service.flac.json")).at("/file/frames").asLong(),
        told.at("/files/2/frames").asLong());
  }
}
