package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SideReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Damaged files are read or refused, nothing else; what is read comes back byte for byte. */
class DamageTest {

  private static final AudioFormat FLOAT = AudioFormat.ieeeFloat(48_000, 2, 32);

  @TempDir Path folder;

  private static byte[] file(String kind) {
    long[][] words = AwkwardFiles.words(new Random(3), FLOAT, 6);
    byte[] samples = FileBuilder.samples(words, FLOAT, kind.equals("AIFC"));
    byte[] text = "odd".getBytes(StandardCharsets.US_ASCII);
    return switch (kind) {
      case "RIFF" ->
          FileBuilder.wav()
              .chunk("LIST", text)
              .chunk("fmt ", FileBuilder.extensibleFmt(FLOAT))
              .chunk("data", samples)
              .chunk("abcd", text)
              .bytes();
      case "AIFC" ->
          FileBuilder.aiff(true)
              .chunk("COMM", FileBuilder.comm(FLOAT, 6, "fl32"))
              .chunk("NAME", text)
              .chunk("SSND", FileBuilder.ssnd(2, 0, new byte[2], samples))
              .bytes();
      default ->
          FileBuilder.large(kind)
              .chunk("ds64", FileBuilder.ds64(12 + 36 + 24 + 8 + 48 - 8, 48, 6))
              .fmt(FLOAT)
              .chunk("data", 0xffff_ffffL, samples, true)
              .bytes();
    };
  }

  /** True if read to the end, false if refused; anything else fails the test. */
  private boolean taken(byte[] file) throws IOException {
    try (SideReader side = Sides.open(folder, file)) {
      long[][] words = Sides.read(side);
      assertThat(words[0].length).isPositive();
      assertThat(Sides.rebuild(side)).isEqualTo(file);
      return true;
    } catch (InputRejectedException refusal) {
      assertThat(refusal.getMessage()).endsWith(".").doesNotContain("\n");
      return false;
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"RIFF", "RF64", "BW64", "AIFC"})
  void everyTruncationIsRefusedUntilAllSamplesAreThere(String kind) throws IOException {
    byte[] whole = file(kind);
    assertThat(taken(whole)).isTrue();
    int behind = kind.equals("RIFF") ? 12 : 0; // a chunk and its padding follow the samples
    for (int length = 0; length < whole.length; length++) {
      assertThat(taken(Arrays.copyOf(whole, length)))
          .as("%s cut to %d of %d bytes", kind, length, whole.length)
          .isEqualTo(length >= whole.length - behind);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"RIFF", "RF64", "BW64", "AIFC"})
  void everyFlippedBitIsReadOrRefused(String kind) throws IOException {
    byte[] whole = file(kind);
    int refused = 0;
    for (int bit = 0; bit < whole.length * 8; bit++) {
      byte[] damaged = whole.clone();
      damaged[bit / 8] ^= (byte) (1 << bit % 8);
      refused += taken(damaged) ? 0 : 1;
    }
    assertThat(refused).isGreaterThan(100); // the magic, the format and the sizes are checked
  }

  @Test
  void garbageIsRefusedOrReadButNeverBreaksTheReader() throws IOException {
    Random random = new Random(11);
    String[] begins = {"", "RIFF0000WAVE", "RF640000WAVEds64", "FORM0000AIFC", "ID3"};
    for (int i = 0; i < 1_000; i++) {
      byte[] garbage = AwkwardFiles.bytes(random, random.nextInt(200));
      byte[] begin = begins[i % begins.length].getBytes(StandardCharsets.US_ASCII);
      taken(FileBuilder.part(false).raw(begin).raw(garbage).content());
    }
  }

  @Test
  void severalChangedBytesInTheHeaderAreReadOrRefused() throws IOException {
    Random random = new Random(12);
    for (int i = 0; i < 1_000; i++) {
      AwkwardFiles.Made made = AwkwardFiles.make(i);
      byte[] damaged = made.file().clone();
      for (int n = 1 + random.nextInt(4); n > 0; n--) {
        damaged[random.nextInt(Math.min(120, damaged.length))] = (byte) random.nextInt();
      }
      taken(damaged);
    }
  }

  @Test
  void aFileOfNothingButTinyChunksIsRefusedSoon() throws IOException {
    FileBuilder many = FileBuilder.wav();
    for (int i = 0; i <= ChunkWalk.MAX_CHUNKS + 1; i++) {
      many.chunk("abcd", new byte[0]);
    }
    assertThat(taken(many.bytes())).isFalse();
  }
}
