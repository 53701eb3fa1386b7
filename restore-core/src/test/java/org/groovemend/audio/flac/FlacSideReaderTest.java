package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SampleCoding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FlacSideReaderTest {

  @TempDir Path folder;

  @Test
  void anyOrderOfReadingGivesTheSameWords() throws IOException {
    AudioFormat format = AudioFormat.pcm(96_000, 2, 24);
    long[][] words = Signals.bursts(24, 2, 150_000, 1);
    Path file = folder.resolve("side.flac");
    FlacTestFiles.write(file, format, words);
    Random random = new Random(2);
    for (int run = 0; run < 3; run++) {
      try (FlacSideReader side = FlacSideReader.open(file)) {
        long[][] into = new long[2][20_000];
        for (int i = 0; i < 150; i++) {
          int count = random.nextInt(run == 0 ? 20_000 : 900);
          int first = random.nextInt(150_001 - count);
          side.readWords(first, count, into, 0);
          for (int c = 0; c < 2; c++) {
            assertThat(Arrays.equals(words[c], first, first + count, into[c], 0, count)).isTrue();
          }
        }
      }
    }
  }

  @Test
  void rangeOutsideTheSideIsRefused() throws IOException {
    Path file = folder.resolve("side.flac");
    FlacTestFiles.write(file, AudioFormat.pcm(8_000, 1, 16), Signals.silence(1, 100));
    try (FlacSideReader side = FlacSideReader.open(file)) {
      long[][] into = new long[1][200];
      assertThatThrownBy(() -> side.readWords(0, 101, into, 0))
          .isInstanceOf(IndexOutOfBoundsException.class);
      assertThatThrownBy(() -> side.readWords(-1, 1, into, 0))
          .isInstanceOf(IndexOutOfBoundsException.class);
      side.readWords(100, 0, into, 0);
    }
  }

  @Test
  void partBeforeTheDamageIsReadableUntilTheDamageIsMet() throws IOException {
    AudioFormat format = AudioFormat.pcm(96_000, 2, 24);
    long[][] words = Signals.noise(24, 2, 20_000, 1, 12);
    Path file = folder.resolve("side.flac");
    FlacTestFiles.write(file, format, words);
    byte[] bytes = Files.readAllBytes(file);
    bytes[bytes.length - 100] ^= 0x10;
    Files.write(file, bytes);
    try (FlacSideReader side = FlacSideReader.open(file)) {
      long[][] into = new long[2][4096];
      side.readWords(0, 4096, into, 0);
      assertThat(into[0]).isEqualTo(Arrays.copyOf(words[0], 4096));
      assertThatThrownBy(() -> side.readWords(16_000, 1000, into, 0))
          .isInstanceOf(InputRejectedException.class)
          .hasMessageContaining("FLAC frame 4, sample 16384");
    }
  }

  @Test
  void originalIsNotChanged() throws IOException {
    Path file = folder.resolve("side.flac");
    FlacTestFiles.write(file, AudioFormat.pcm(8_000, 1, 16), Signals.tone(16, 1, 9_000, 1));
    byte[] before = Files.readAllBytes(file);
    assertThat(file.toFile().setReadOnly()).isTrue();
    FlacTestFiles.read(file);
    FlacTestFiles.layout(file);
    assertThat(Files.readAllBytes(file)).isEqualTo(before);
  }

  /** Floats come back as the integers that their bits make; whoever wrote them knows. */
  @Test
  void floatWordsSurviveAsIntegers() throws IOException {
    AudioFormat format = AudioFormat.ieeeFloat(48_000, 2, 32);
    Random random = new Random(4);
    long[][] words = new long[2][5000];
    for (long[] channel : words) {
      for (int i = 1000; i < 4500; i++) {
        channel[i] = Float.floatToRawIntBits((float) (0.1 * random.nextGaussian()));
      }
      channel[7] = Float.floatToRawIntBits(-0.0f);
      channel[8] = Float.floatToRawIntBits(Float.NEGATIVE_INFINITY);
    }
    Path file = folder.resolve("float.flac");
    FlacTestFiles.write(file, format, words);
    try (FlacSideReader side = FlacSideReader.open(file)) {
      assertThat(side.format()).isEqualTo(AudioFormat.pcm(48_000, 2, 32));
      assertThat(side.format().coding()).isEqualTo(SampleCoding.PCM);
      assertThat(FlacTestFiles.read(side)).isDeepEqualTo(words);
    }
    FlacTestFiles.assertComesBack(file, format, words);
  }
}
