package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AwkwardFilesTest {

  private static final int FILES = 1_000;

  @TempDir Path folder;

  @Test
  void everyLegalFileIsReadAsItWasMadeAndComesBackByteForByte() throws IOException {
    for (int seed = 0; seed < FILES; seed++) {
      AwkwardFiles.Made made = AwkwardFiles.make(seed);
      try (SideReader side = Sides.open(folder, made.file())) {
        assertThat(side.format()).as("seed %d", seed).isEqualTo(made.format());
        assertThat(side.container()).as("seed %d", seed).isEqualTo(made.container());
        assertThat(side.frames()).as("seed %d", seed).isEqualTo(made.words()[0].length);
        assertThat(Arrays.deepEquals(Sides.read(side), made.words())).as("seed %d", seed).isTrue();
        assertThat(Sides.rebuild(side)).as("seed %d", seed).isEqualTo(made.file());
      }
    }
  }

  @Test
  void readingInAnyOrderGivesTheSameWords() throws IOException {
    for (int seed = 0; seed < 200; seed++) {
      AwkwardFiles.Made made = AwkwardFiles.make(seed);
      Random random = new Random(seed);
      try (SideReader side = Sides.open(folder, made.file())) {
        int frames = made.words()[0].length;
        for (int i = 0; i < 20; i++) {
          int first = random.nextInt(frames);
          int count = random.nextInt(frames - first + 1);
          int offset = random.nextInt(5);
          long[][] into = new long[made.format().channels()][offset + count];
          side.readWords(first, count, into, offset);
          for (int c = 0; c < into.length; c++) {
            assertThat(Arrays.copyOfRange(into[c], offset, offset + count))
                .isEqualTo(Arrays.copyOfRange(made.words()[c], first, first + count));
          }
        }
      }
    }
  }

  @Test
  void aCopyCarriesFormatSamplesAndEveryChunkInOrder() throws IOException {
    Path copy = folder.resolve("copy.wav");
    for (int seed = 0; seed < 150; seed++) {
      AwkwardFiles.Made made = AwkwardFiles.make(seed);
      try (SideReader side = Sides.open(folder, made.file())) {
        Files.deleteIfExists(copy);
        List<WavChunk> chunks = side.wavChunks();
        int frames = made.words()[0].length;
        try (WavWriter writer = WavWriter.create(copy, side.format(), frames, chunks, side)) {
          writer.write(made.words(), 0, frames / 2);
          writer.write(made.words(), frames / 2, frames - frames / 2);
        }
        try (SideReader again = SideFiles.open(copy)) {
          assertThat(again.notices()).as("seed %d", seed).isEmpty();
          assertThat(again.format()).isEqualTo(made.format());
          assertThat(Sides.read(again)).as("seed %d", seed).isDeepEqualTo(made.words());
          checkCarried(seed, made, again, Files.readAllBytes(copy));
        }
      }
    }
  }

  private static void checkCarried(int seed, AwkwardFiles.Made made, SideReader again, byte[] copy)
      throws IOException {
    if (made.chunkIds() == null) {
      return;
    }
    assertThat(again.container()).as("seed %d", seed).isEqualTo(made.container());
    List<String> ids = new ArrayList<>();
    for (WavChunk chunk : again.wavChunks()) {
      byte[] expected = made.chunkContents().get(ids.size());
      ids.add(chunk.id());
      if (expected != null) {
        int from = (int) chunk.fileOffset();
        assertThat(Arrays.copyOfRange(copy, from, from + (int) chunk.size()))
            .as("seed %d, chunk %s", seed, chunk.id())
            .isEqualTo(expected);
      }
    }
    assertThat(ids).as("seed %d", seed).isEqualTo(made.chunkIds());
  }

  @Test
  void wordsGoToBytesAndBackAsInTheSlowForm() {
    for (int seed = 0; seed < 300; seed++) {
      Random random = new Random(seed);
      AudioFormat format = AwkwardFiles.format(random);
      boolean big = random.nextBoolean();
      long[][] words = AwkwardFiles.words(random, format, 1 + random.nextInt(70));
      int frames = words[0].length;
      byte[] slow = FileBuilder.samples(words, format, big);
      byte[] fast = new byte[slow.length];
      WordBytes.encode(words, 0, frames, format, big, fast, 0);
      assertThat(fast).isEqualTo(slow);
      long[][] back = new long[format.channels()][frames];
      WordBytes.decode(slow, 0, frames, format, big, back, 0);
      assertThat(back).isDeepEqualTo(words);
    }
  }
}
