package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.groovemend.audio.AudioFormat;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Reference: the decoder and encoder of ffmpeg (5.1), written independently of the program flac.
 */
class FfmpegReferenceTest {

  @TempDir Path folder;

  @BeforeEach
  void needsTheProgram() {
    Tool.FFMPEG.assumeInstalled();
  }

  @ParameterizedTest
  @CsvSource({
    "16, 1, 0",
    "16, 2, 5",
    "16, 2, 12",
    "24, 1, 8",
    "24, 2, 0",
    "24, 2, 5",
    "24, 2, 8",
    "24, 2, 12"
  })
  void readsWhatItWroteAndGivesItBackFromTheRecipe(int bits, int channels, int level)
      throws Exception {
    long[][] words = Signals.tone(bits, channels, 50_000, level);
    Files.write(folder.resolve("in.raw"), FlacTestFiles.raw(words, bits));
    Path file = folder.resolve("side.flac");
    Tool.FFMPEG.run(
        folder,
        "-v",
        "error",
        "-f",
        "s" + bits + "le",
        "-ar",
        96_000,
        "-ac",
        channels,
        "-i",
        "in.raw",
        "-c:a",
        "flac",
        "-sample_fmt",
        bits == 16 ? "s16" : "s32",
        "-bits_per_raw_sample",
        bits,
        "-compression_level",
        level,
        file);

    assertThat(FlacTestFiles.read(file)).isDeepEqualTo(words);
    FlacTestFiles.assertComesBack(file, AudioFormat.pcm(96_000, channels, bits), words);
  }

  @ParameterizedTest
  @ValueSource(strings = {"tone", "noise", "square", "bursts", "silence", "wasted"})
  void decodesWhatWeWroteToTheSameSamples(String kind) throws Exception {
    for (int bits = 16; bits <= 24; bits += 8) {
      long[][] words =
          switch (kind) {
            case "tone" -> Signals.tone(bits, 2, 20_000, 1);
            case "noise" -> Signals.noise(bits, 2, 20_000, 1);
            case "square" -> Signals.square(bits, 2, 20_000);
            case "bursts" -> Signals.bursts(bits, 2, 20_000, 1);
            case "silence" -> Signals.silence(2, 20_000);
            default -> Signals.wasted(bits, 2, 20_000, 3);
          };
      Path file = folder.resolve(kind + bits + ".flac");
      FlacTestFiles.write(file, AudioFormat.pcm(44_100, 2, bits), words);
      Tool.FFMPEG.run(
          folder, "-v", "error", "-xerror", "-y", "-i", file, "-f", "s" + bits + "le", "out.raw");

      assertThat(Files.readAllBytes(folder.resolve("out.raw")))
          .isEqualTo(FlacTestFiles.raw(words, bits));
    }
  }
}
