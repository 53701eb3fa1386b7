package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.flac.Tool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is written is read by other programs and by this project's own reader, word by word. */
class AiffWriterTest {

  /** Odd, so that a mono file of 24 bits needs its pad byte. */
  private static final int FRAMES = 2_001;

  @TempDir private Path dir;

  private static AudioFormat format(String coding, int rate, int channels, int bits) {
    return coding.equals("float")
        ? AudioFormat.ieeeFloat(rate, channels, bits)
        : AudioFormat.pcm(rate, channels, bits);
  }

  private Path write(AudioFormat format, long[][] words, byte[] id3) throws IOException {
    Path file = dir.resolve("side.aiff");
    try (AiffWriter writer = AiffWriter.create(file, format, FRAMES, id3)) {
      writer.write(words, 0, 1_000);
      writer.write(words, 1_000, 0);
      writer.write(words, 1_000, 1_001);
    }
    return file;
  }

  @ParameterizedTest
  @CsvSource({
    "int,44100,2,16",
    "int,8000,1,24",
    "int,96000,1,24",
    "int,48000,2,32",
    "int,384000,2,24",
    "int,77333,1,16",
    "float,192000,2,32",
    "float,44100,1,64"
  })
  void itReadsBackHereAndElsewhere(String coding, int rate, int channels, int bits)
      throws Exception {
    AudioFormat format = format(coding, rate, channels, bits);
    long[][] words = AwkwardFiles.words(new Random(5), format, FRAMES);
    Path file = write(format, words, new byte[0]);
    try (SideReader side = SideFiles.open(file)) {
      assertThat(side.format()).isEqualTo(format);
      assertThat(side.container()).startsWith(coding.equals("int") ? "AIFF" : "AIFF-C");
      assertThat(side.notices()).isEmpty();
      assertThat(Sides.read(side)).isDeepEqualTo(words);
      assertThat(Sides.rebuild(side)).isEqualTo(Files.readAllBytes(file));
    }
    Tool.FFMPEG.assumeInstalled();
    String code = (format.coding() == SampleCoding.PCM ? "s" : "f") + bits + "le";
    Tool.FFMPEG.run(
        dir, "-v", "error", "-i", "side.aiff", "-f", code, "-c:a", "pcm_" + code, "out.raw");
    assertThat(Files.readAllBytes(dir.resolve("out.raw")))
        .isEqualTo(FileBuilder.samples(words, format, false));
  }

  @ParameterizedTest
  @CsvSource({"44100,2,16", "96000,1,24", "384000,2,24"})
  void aSecondProgramTakesTheSameRateAndSamples(int rate, int channels, int bits) throws Exception {
    Tool sox = new Tool("sox");
    sox.assumeInstalled();
    AudioFormat format = AudioFormat.pcm(rate, channels, bits);
    long[][] words = AwkwardFiles.words(new Random(6), format, FRAMES);
    write(format, words, new byte[] {1, 2, 3});
    sox.run(dir, "side.aiff", "out.wav");
    try (SideReader side = SideFiles.open(dir.resolve("out.wav"))) {
      assertThat(side.format()).isEqualTo(format);
      assertThat(Sides.read(side)).isDeepEqualTo(words);
    }
  }

  @Test
  void aTagChunkStandsBehindTheSamplesAndPadded() throws IOException {
    AudioFormat format = AudioFormat.pcm(96_000, 1, 24);
    long[][] words = AwkwardFiles.words(new Random(7), format, FRAMES);
    Path file = write(format, words, new byte[] {7, 8, 9});
    byte[] bytes = Files.readAllBytes(file);
    assertThat(bytes.length % 2).isZero();
    assertThat(Bytes.u32Big(bytes, 4)).isEqualTo(bytes.length - 8);
    assertThat(Bytes.ascii(bytes, bytes.length - 12, 4)).isEqualTo("ID3 ");
    assertThat(Bytes.u32Big(bytes, bytes.length - 8)).isEqualTo(3);
    try (SideReader side = SideFiles.open(file)) {
      assertThat(side.notices()).isEmpty();
      assertThat(Sides.read(side)).isDeepEqualTo(words);
    }
  }

  @Test
  void itKnowsWhereItsSizesEnd() {
    AudioFormat format = AudioFormat.pcm(96_000, 2, 24);
    // 46 bytes of FORM, AIFF, COMM and SSND count in the size of the whole, 2^32 - 1 at most
    long most = (0xffff_ffffL - 46) / 6;
    assertThat(AiffWriter.holds(format, most, 0)).isTrue();
    assertThat(AiffWriter.holds(format, most + 1, 0)).isFalse();
    assertThat(AiffWriter.holds(format, most, 1_000)).isFalse();
    assertThatThrownBy(
            () -> AiffWriter.create(dir.resolve("long.aiff"), format, most + 1, new byte[0]))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(dir.resolve("long.aiff")).doesNotExist();
  }

  @Test
  void fewerFramesThanAnnouncedAreAFailure() throws IOException {
    AudioFormat format = AudioFormat.pcm(44_100, 1, 16);
    AiffWriter writer = AiffWriter.create(dir.resolve("few.aiff"), format, 5, new byte[0]);
    writer.write(new long[1][4], 0, 4);
    assertThatThrownBy(() -> writer.write(new long[1][2], 0, 2))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("5 frames");
    assertThatThrownBy(writer::close).isInstanceOf(IOException.class).hasMessageContaining("got 4");
  }
}
