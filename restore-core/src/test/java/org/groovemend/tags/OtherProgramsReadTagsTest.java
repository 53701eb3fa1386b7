package org.groovemend.tags;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.BroadcastExtension;
import org.groovemend.audio.file.CodingHistory;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.audio.flac.Tool;
import org.jaudiotagger.audio.AudioFileIO;
import org.jaudiotagger.tag.FieldKey;
import org.jaudiotagger.tag.Tag;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files with every tag, read by programs that are not ours. */
class OtherProgramsReadTagsTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(48_000, 2, 24);
  private static final int FRAMES = 5001;
  private static final Tool FFPROBE = new Tool("ffprobe");
  private static final Tool METAFLAC = new Tool("metaflac");
  private static final Tool PYTHON = new Tool("/usr/bin/python3");

  @TempDir private Path dir;
  private long[][] words;
  private String samplesSha256;
  private Cover cover;

  @BeforeEach
  void sound() throws IOException {
    Random random = new Random(3);
    words = new long[2][];
    for (int c = 0; c < 2; c++) {
      words[c] = random.ints(FRAMES, -(1 << 23), 1 << 23).asLongStream().toArray();
    }
    SampleDigest digest = new SampleDigest(FORMAT);
    digest.update(words, 0, FRAMES);
    samplesSha256 = digest.hex();
    cover = Cover.of(Examples.picture("png", 31, 17));
  }

  private Path flac(String name) throws IOException {
    Path file = dir.resolve(name);
    List<org.groovemend.audio.flac.MetadataBlock> blocks = TagParts.flac(Examples.FULL, cover);
    try (FlacWriter writer = new FlacWriter(file, FORMAT, FRAMES, null, 1, blocks)) {
      writer.write(words, 0, FRAMES);
    }
    return file;
  }

  private Path wav(String name, SideReader likeOrNull) throws IOException {
    Path file = dir.resolve(name);
    List<WavChunk> chunks = new ArrayList<>();
    chunks.add(bext());
    chunks.add(WavChunk.samples());
    chunks.add(WavChunk.of("xyz ", new byte[] {1, 2, 3}));
    chunks.addAll(TagParts.wav(Examples.FULL, cover));
    try (WavWriter writer = WavWriter.create(file, FORMAT, FRAMES, chunks, likeOrNull)) {
      writer.write(words, 0, FRAMES);
    }
    return file;
  }

  private static WavChunk bext() {
    return WavChunk.of(
        "bext",
        BroadcastExtension.withHistoryLine(
            null,
            CodingHistory.line(FORMAT, "test"),
            new BroadcastExtension.Origin("test", null, null)));
  }

  /** A minimal AIFF file with the tag behind its samples. */
  private Path aiff() throws IOException {
    byte[] whole;
    try (InputStream in = getClass().getResourceAsStream("/fixtures/audio/good/101-aiff-24.aiff")) {
      whole = in.readAllBytes();
    }
    byte[] id3 = TagParts.aiffId3(Examples.FULL, cover);
    byte[] out = Arrays.copyOf(whole, whole.length + 8 + id3.length + (id3.length & 1));
    System.arraycopy("ID3 ".getBytes(StandardCharsets.US_ASCII), 0, out, whole.length, 4);
    Words.putBigEndian(id3.length, out, whole.length + 4, 4);
    System.arraycopy(id3, 0, out, whole.length + 8, id3.length);
    Words.putBigEndian(out.length - 8, out, 4, 4);
    return Files.write(dir.resolve("tagged.aiff"), out);
  }

  /** A reader of an RF64 file, so that the copy is one. */
  private SideReader rf64() throws IOException {
    Path file = dir.resolve("like.wav");
    try (InputStream in = getClass().getResourceAsStream("/fixtures/audio/good/019-rf64.wav")) {
      Files.write(file, in.readAllBytes());
    }
    return SideFiles.open(file);
  }

  @Test
  void samplesAndOtherChunksAreUntouched() throws IOException {
    for (Path file : List.of(flac("a.flac"), wav("a.wav", null), rf64Tagged())) {
      try (SideReader side = SideFiles.open(file)) {
        assertThat(side.notices()).isEmpty();
        long[][] read = new long[2][FRAMES];
        side.readWords(0, FRAMES, read, 0);
        SampleDigest digest = new SampleDigest(FORMAT);
        digest.update(read, 0, FRAMES);
        assertThat(digest.hex()).as(file.toString()).isEqualTo(samplesSha256);
        for (WavChunk chunk : side.wavChunks()) {
          if (chunk.id().equals("bext")) {
            byte[] bytes = Files.readAllBytes(file);
            int at = (int) chunk.fileOffset();
            assertThat(Arrays.copyOfRange(bytes, at, at + (int) chunk.size()))
                .isEqualTo(bext().content());
          }
        }
      }
    }
    try (SideReader side = SideFiles.open(aiff());
        SideReader before = SideFiles.open(Path.of("../fixtures/audio/good/101-aiff-24.aiff"))) {
      assertThat(side.notices()).isEmpty();
      int n = (int) side.frames();
      long[][] one = new long[side.format().channels()][n];
      long[][] other = new long[side.format().channels()][n];
      side.readWords(0, n, one, 0);
      before.readWords(0, n, other, 0);
      assertThat(one).isDeepEqualTo(other);
    }
  }

  private Path rf64Tagged() throws IOException {
    try (SideReader like = rf64()) {
      Path file = wav("large.wav", like);
      assertThat(new String(Files.readAllBytes(file), 0, 4, StandardCharsets.ISO_8859_1))
          .isEqualTo("RF64");
      return file;
    }
  }

  @Test
  void theSameTagsGiveTheSameBytes() throws IOException {
    assertThat(Files.mismatch(flac("a.flac"), flac("b.flac"))).isEqualTo(-1);
    assertThat(Files.mismatch(wav("a.wav", null), wav("b.wav", null))).isEqualTo(-1);
  }

  @Test
  void noTagsGiveTheFileThatWasWrittenBefore() throws IOException {
    assertThat(TagParts.wav(Tags.none(), null)).isEmpty();
    assertThat(TagParts.aiffId3(Tags.none(), null)).isEmpty();
    Path plain = dir.resolve("plain.flac");
    try (FlacWriter writer = new FlacWriter(plain, FORMAT, FRAMES, null, 1)) {
      writer.write(words, 0, FRAMES);
    }
    Path empty = dir.resolve("empty.flac");
    try (FlacWriter writer =
        new FlacWriter(empty, FORMAT, FRAMES, null, 1, TagParts.flac(Tags.none(), null))) {
      writer.write(words, 0, FRAMES);
    }
    assertThat(Files.mismatch(plain, empty)).isEqualTo(-1);
  }

  @Test
  void flacToolsTakeTheBlocks() throws Exception {
    METAFLAC.assumeInstalled();
    Path file = flac("a.flac");
    Tool.FLAC.run(dir, "--test", "--silent", file);
    METAFLAC.run(dir, "--export-tags-to=tags.txt", "--no-utf8-convert", file);
    String said = Files.readString(dir.resolve("tags.txt"));
    for (TagField field : TagField.values()) {
      assertThat(said).contains(field.vorbis() + "=" + Examples.FULL.get(field) + "\n");
    }
    METAFLAC.run(dir, "--export-picture-to=cover.png", file);
    assertThat(Files.readAllBytes(dir.resolve("cover.png"))).isEqualTo(cover.bytes());
    METAFLAC.run(dir, "--list", "--block-type=PICTURE", file);
    assertThat(Files.readString(dir.resolve("tool.log")))
        .contains("type: 3 (Cover (front))", "width: 31", "height: 17", "depth: 24");
  }

  /** What ffprobe calls the tags, over its formats. */
  @Test
  void ffprobeReadsThem() throws Exception {
    FFPROBE.assumeInstalled();
    for (Path file : List.of(flac("a.flac"), wav("a.wav", null), rf64Tagged(), aiff())) {
      String tool =
          "ffprobe -v error -of json -show_format -show_streams "
              + file.getFileName()
              + " > probe.json";
      new Tool("sh").run(dir, "-c", tool);
      JsonNode said = new ObjectMapper().readTree(dir.resolve("probe.json").toFile());
      JsonNode tags = said.get("format").get("tags");
      holds(tags, file, "title", Examples.FULL.get(TagField.TITLE));
      holds(tags, file, "artist", Examples.FULL.get(TagField.PERFORMER));
      holds(tags, file, "album", Examples.FULL.get(TagField.SET));
      holds(tags, file, "genre", "Waltz");
      holds(tags, file, "comment", Examples.FULL.get(TagField.COMMENT));
      if (file.toString().endsWith(".wav")) {
        // of a WAV file it reads LIST INFO alone
        continue;
      }
      holds(tags, file, "composer", Examples.FULL.get(TagField.COMPOSER));
      holds(tags, file, "MATRIXNUMBER", Examples.FULL.get(TagField.MATRIX_NUMBER));
      JsonNode picture = said.get("streams").get(1);
      assertThat(picture.get("codec_name").asText()).as(file.toString()).isEqualTo("png");
      assertThat(picture.get("width").asInt()).isEqualTo(31);
    }
  }

  private static void holds(JsonNode tags, Path file, String name, String text) {
    JsonNode value = tags.has(name) ? tags.get(name) : tags.get(name.toUpperCase(Locale.ROOT));
    assertThat(value).as(file + " " + name + " of " + tags).isNotNull();
    assertThat(value.asText()).as(file + " " + name).isEqualTo(text);
  }

  /** Mutagen is a general tag library for Python. */
  @Test
  void mutagenReadsThem() throws Exception {
    org.junit.jupiter.api.Assumptions.assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/python3"))
            && new ProcessBuilder("/usr/bin/python3", "-c", "import mutagen").start().waitFor()
                == 0,
        "SKIPPED: mutagen is not installed, nothing was compared with it");
    Path script =
        Files.writeString(
            dir.resolve("read.py"),
            """
            import json, mutagen, sys
            for name in sys.argv[1:]:
                f = mutagen.File(name)
                if name.endswith('.flac'):
                    out = {k.upper(): v for k, v in f.tags.items()}
                    out['cover'] = [f.pictures[0].data.hex()]
                else:
                    out = {k: [str(v)] for k, v in f.tags.items() if not k.startswith('APIC')}
                    out['cover'] = [f.tags.getall('APIC')[0].data.hex()]
                json.dump(out, open(name + '.json', 'w'))
            """);
    Path flac = flac("a.flac");
    Path wav = wav("a.wav", null);
    Path aiff = aiff();
    PYTHON.run(dir, script, flac, wav, aiff);
    String hex = java.util.HexFormat.of().formatHex(cover.bytes());
    JsonNode ofFlac = new ObjectMapper().readTree(new java.io.File(flac + ".json"));
    for (TagField field : TagField.values()) {
      assertThat(ofFlac.get(field.vorbis()).get(0).asText()).isEqualTo(Examples.FULL.get(field));
    }
    assertThat(ofFlac.get("cover").get(0).asText()).isEqualTo(hex);
    for (Path file : List.of(wav, aiff)) {
      JsonNode id3 = new ObjectMapper().readTree(new java.io.File(file + ".json"));
      for (TagField field : TagField.values()) {
        String expected = Examples.FULL.get(field);
        String name = field.id3() == null ? "TXXX:" + field.vorbis() : field.id3();
        switch (field) {
          case TRACK -> expected = "4/12";
          case DISC -> expected = "2/3";
          case COMMENT -> name = "COMM::XXX";
          case TRACKS, DISCS -> {
            continue;
          }
          default -> {
            // as it is
          }
        }
        assertThat(id3.get(name)).as(file + " " + name + " in " + id3).isNotNull();
        assertThat(id3.get(name).get(0).asText()).as(name).isEqualTo(expected);
      }
      assertThat(id3.get("cover").get(0).asText()).isEqualTo(hex);
    }
  }

  /** The library reads files by another half of its code than the one used for writing. */
  @Test
  void theTagLibraryReadsItsOwnOutOfOurFiles() throws Exception {
    for (Path file : List.of(flac("a.flac"), wav("a.wav", null), aiff())) {
      Tag tag = AudioFileIO.read(file.toFile()).getTag();
      assertThat(tag.getFirst(FieldKey.TITLE)).isEqualTo(Examples.FULL.get(TagField.TITLE));
      assertThat(tag.getFirst(FieldKey.ARTIST)).isEqualTo(Examples.FULL.get(TagField.PERFORMER));
      assertThat(tag.getFirstArtwork().getBinaryData()).isEqualTo(cover.bytes());
    }
  }
}
