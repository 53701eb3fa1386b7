package org.groovemend.bag;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.groovemend.audio.flac.Tool;
import org.groovemend.bag.BagFinding.Kind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Layout after RFC 8493. The checksums are those of FIPS 180-4's "abc" and of nothing, and {@code
 * sha256sum} reads the manifests.
 */
class BagTest {

  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  private static final String EMPTY =
      "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
  private static final Set<DigestAlgorithm> SHA256 = Set.of(DigestAlgorithm.SHA256);

  @TempDir private Path dir;
  private Path bag;

  @BeforeEach
  void place() {
    bag = dir.resolve("out/a side");
  }

  private void write(Set<DigestAlgorithm> algorithms) throws IOException {
    SmallBag.write(bag, false, algorithms);
  }

  private BagReport validate() throws IOException {
    return BagValidator.validate(bag, n -> {});
  }

  private static List<Kind> kinds(BagReport report) {
    return report.findings().stream().map(BagFinding::kind).toList();
  }

  @Test
  void aBagIsWhatTheStandardSays() throws IOException {
    write(SHA256);
    assertThat(bag.resolve("bagit.txt"))
        .hasContent("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
    assertThat(bag.resolve("bag-info.txt"))
        .hasContent(
            """
            External-Identifier: Q 12/3
            External-Description: two lines of text
            Bagging-Date: 2026-11-26
            Payload-Oxum: 3.2
            """);
    assertThat(bag.resolve("manifest-sha256.txt"))
        .hasContent(EMPTY + "  data/empty\n" + ABC + "  data/service/rye.flac\n");
    BagReport report = validate();
    assertThat(report.findings()).isEmpty();
    assertThat(report.valid()).isTrue();
    assertThat(report.payloadFiles()).isEqualTo(2);
    assertThat(report.payloadBytes()).isEqualTo(3);
    BagReport quick = BagValidator.complete(bag);
    assertThat(quick.complete()).isTrue();
    assertThat(quick.valid()).as("not looked at").isFalse();
  }

  @Test
  void otherProgramsFindTheSameChecksums() throws Exception {
    write(Set.of(DigestAlgorithm.SHA256, DigestAlgorithm.SHA512));
    for (String algorithm : List.of("sha256", "sha512")) {
      Tool tool = new Tool(algorithm + "sum");
      tool.assumeInstalled();
      tool.run(bag, "--check", "--strict", "manifest-" + algorithm + ".txt");
      tool.run(bag, "--check", "--strict", "tagmanifest-" + algorithm + ".txt");
    }
  }

  /** The general library bagit for Python. */
  @Test
  void anotherLibraryFindsTheBagValid() throws Exception {
    String python = "/usr/bin/python3";
    assumeTrue(
        Files.isExecutable(Path.of(python))
            && new ProcessBuilder(python, "-c", "import bagit").start().waitFor() == 0,
        "SKIPPED: bagit for Python is not installed, nothing was compared with it");
    write(Set.of(DigestAlgorithm.SHA256, DigestAlgorithm.SHA512));
    new Tool(python).run(dir, "-c", "import bagit; bagit.Bag('out/a side').validate()");
  }

  @Test
  void whatIsMissingExtraOrChangedIsTold() throws IOException {
    write(SHA256);
    Files.delete(bag.resolve("data/empty"));
    Files.writeString(bag.resolve("data/extra"), "x");
    Files.writeString(bag.resolve("data/service/rye.flac"), "abd");
    BagReport report = validate();
    assertThat(report.findings())
        .extracting(BagFinding::kind, BagFinding::file)
        .containsExactly(
            tuple(Kind.MISSING, "data/empty"),
            tuple(Kind.EXTRA, "data/extra"),
            tuple(Kind.CHANGED, "bag-info.txt"),
            tuple(Kind.CHANGED, "data/service/rye.flac"));
    assertThat(report.findings().get(3).what()).contains("listed is " + ABC);
    assertThat(report.complete()).isFalse();
    assertThat(report.valid()).isFalse();
  }

  private static org.assertj.core.groups.Tuple tuple(Object... values) {
    return org.assertj.core.groups.Tuple.tuple(values);
  }

  @Test
  void aChangedFileLeavesABagCompleteButNotValid() throws IOException {
    write(SHA256);
    Files.writeString(bag.resolve("data/service/rye.flac"), "abd");
    assertThat(BagValidator.complete(bag).complete()).isTrue();
    assertThat(validate().complete()).isTrue();
    assertThat(validate().valid()).isFalse();
  }

  /** Every byte of every tag file but the manifest of tag files itself. */
  @Test
  void everyChangeOfATagFileIsFound() throws IOException {
    write(SHA256);
    for (String name : List.of("bagit.txt", "bag-info.txt", "manifest-sha256.txt")) {
      byte[] whole = Files.readAllBytes(bag.resolve(name));
      for (int i = 0; i < whole.length; i++) {
        byte[] changed = whole.clone();
        changed[i] ^= 1;
        Files.write(bag.resolve(name), changed);
        assertThat(validate().valid()).as(name + " " + i).isFalse();
      }
      Files.delete(bag.resolve(name));
      assertThat(validate().complete()).as(name).isFalse();
      Files.write(bag.resolve(name), whole);
    }
    assertThat(validate().valid()).isTrue();
  }

  @Test
  void namesWithLineEndsAndPercentSignsAreEncoded() throws IOException {
    List<String> names =
        List.of("50%.wav", "%25.wav", "a\nb", "a\rb", "a\r\nb", "%0A", " lead", "*x");
    try (BagWriter writer = BagWriter.open(bag, false, List.of(), SHA256)) {
      for (String name : names) {
        Files.writeString(writer.payload(name), "abc");
      }
      writer.commit(SmallBag.DAY, n -> {});
    }
    String manifest = Files.readString(bag.resolve("manifest-sha256.txt"));
    assertThat(manifest.lines())
        .hasSize(names.size())
        .contains(
            ABC + "  data/50%25.wav",
            ABC + "  data/%2525.wav",
            ABC + "  data/a%0Ab",
            ABC + "  data/a%0Db",
            ABC + "  data/a%0D%0Ab",
            ABC + "  data/%250A");
    assertThat(validate().findings()).isEmpty();
  }

  /** Where the system's names are ASCII, that is told, and nothing is called missing. */
  @Test
  void namesWithAccents() throws IOException {
    write(SHA256);
    Path manifest = bag.resolve("manifest-sha256.txt");
    Files.writeString(manifest, Files.readString(manifest) + ABC + "  data/\u017eito.flac\n");
    if (BagPath.possible("\u017eito.flac")) {
      Files.writeString(bag.resolve("data/\u017eito.flac"), "abc");
      assertThat(BagValidator.complete(bag).findings())
          .extracting(BagFinding::file)
          .as("the sum of all")
          .containsExactly("bag-info.txt");
    } else {
      assertThat(kinds(BagValidator.complete(bag))).containsExactly(Kind.MALFORMED);
    }
  }

  @Test
  void pathsThatLeadOutAreNotFollowed() throws IOException {
    write(SHA256);
    Path secret = Files.writeString(dir.resolve("secret"), "abc");
    Path manifest = bag.resolve("manifest-sha256.txt");
    String before = Files.readString(manifest);
    for (String path :
        List.of("data/../../../secret", secret.toString(), "~/x", "C:\\x", "data\\..\\x")) {
      Files.writeString(manifest, before + ABC + "  " + path + "\n");
      assertThat(kinds(BagValidator.complete(bag))).as(path).containsExactly(Kind.UNSAFE);
    }
    Files.writeString(manifest, before + ABC + "  data/link\n");
    Files.createSymbolicLink(bag.resolve("data/link"), secret);
    assertThat(kinds(BagValidator.complete(bag))).containsExactly(Kind.UNSAFE, Kind.MISSING);
  }

  @Test
  void olderAndOddBagsAreRead() throws IOException {
    write(SHA256);
    Files.delete(bag.resolve("tagmanifest-sha256.txt"));
    Files.delete(bag.resolve("bag-info.txt"));
    Files.writeString(
        bag.resolve("bagit.txt"), "BagIt-Version: 0.97\r\nTag-File-Character-Encoding: UTF-8\r\n");
    Path manifest = bag.resolve("manifest-sha256.txt");
    Files.writeString(
        manifest,
        EMPTY.toUpperCase(java.util.Locale.ROOT)
            + " *data/empty\r\n"
            + ABC
            + "\tdata/service/rye.flac");
    // MD5 of "abc" and of nothing, RFC 1321, section A.5
    Files.writeString(
        bag.resolve("manifest-md5.txt"),
        "d41d8cd98f00b204e9800998ecf8427e  data/empty\n"
            + "900150983cd24fb0d6963f7d28e17f72  ./data/service/rye.flac\n");
    assertThat(validate().findings()).isEmpty();
    Files.writeString(
        bag.resolve("manifest-xyz.txt"), "12  data/empty\n12  data/service/rye.flac\n");
    assertThat(kinds(validate())).containsExactly(Kind.NOT_CHECKED);
    assertThat(validate().valid()).isTrue();
    Files.delete(manifest);
    Files.delete(bag.resolve("manifest-md5.txt"));
    assertThat(validate().valid()).as("nothing known to check with").isFalse();
    Files.writeString(manifest, EMPTY + "  data/empty\n" + ABC + "  data/service/rye.flac\nxyz\n");
    Files.delete(bag.resolve("manifest-xyz.txt"));
    assertThat(kinds(validate())).containsExactly(Kind.MALFORMED);
    Files.writeString(manifest, EMPTY + "  data/empty\n");
    assertThat(kinds(validate())).containsExactly(Kind.EXTRA);
  }

  @Test
  void whatIsNoBagIsSaid() throws IOException {
    assertThatThrownBy(() -> BagValidator.complete(dir.resolve("none")))
        .isInstanceOf(NoSuchFileException.class);
    assertThat(kinds(BagValidator.complete(dir)))
        .containsExactly(Kind.MISSING, Kind.MISSING, Kind.MISSING);
    write(SHA256);
    Files.writeString(bag.resolve("bagit.txt"), "hello");
    assertThat(kinds(BagValidator.complete(bag))).containsExactly(Kind.MALFORMED);
    Files.writeString(
        bag.resolve("bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-16\n");
    assertThat(BagValidator.complete(bag).findings().get(0).what()).contains("only UTF-8");
  }

  @Test
  void aManifestThatIsNoTextIsNoCrash() throws IOException {
    write(SHA256);
    byte[] noise = new byte[1000];
    new java.util.Random(4).nextBytes(noise);
    Files.write(bag.resolve("manifest-sha256.txt"), noise);
    Files.write(bag.resolve("bagit.txt"), noise);
    assertThat(validate().valid()).isFalse();
    assertThat(new String(noise, StandardCharsets.UTF_8)).isNotEmpty();
  }
}
