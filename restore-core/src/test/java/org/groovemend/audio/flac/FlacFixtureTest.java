package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Files of two general encoders, kept so that the decoder is tested where no such program is
 * installed.
 */
class FlacFixtureTest {

  private static final String FOLDER = "/fixtures/audio/flac/";

  @TempDir Path folder;

  static List<String> rows() throws IOException {
    String table = new String(bytes("expected.csv"), StandardCharsets.US_ASCII);
    return table.lines().skip(2).toList();
  }

  private static byte[] bytes(String name) throws IOException {
    try (InputStream in = FlacFixtureTest.class.getResourceAsStream(FOLDER + name)) {
      return in.readAllBytes();
    }
  }

  /**
   * Recipes stand in ledgers that are kept: those of an earlier day must go on rebuilding the
   * frames.
   */
  @ParameterizedTest
  @CsvSource({
    "001, 001-tone-16-stereo-best.flac",
    "002, 002-tone-24-stereo-order-32.flac",
    "005, 005-tone-32-stereo.flac"
  })
  void recipesOfVersionOneRebuildTheFrames(String recipe, String name) throws IOException {
    Path file = folder.resolve(name);
    byte[] whole = bytes(name);
    Files.write(file, whole);
    ByteArrayOutputStream frames = new ByteArrayOutputStream();
    try (FlacSideReader side = FlacSideReader.open(file)) {
      FlacFrameRebuilder.rebuild(bytes(recipe + ".recipe"), side, 0, (int) side.frames(), frames);
    }
    byte[] expected = Arrays.copyOfRange(whole, whole.length - frames.size(), whole.length);
    assertThat(frames.toByteArray()).isEqualTo(expected).startsWith(0xff, 0xf8);
  }

  @ParameterizedTest
  @MethodSource("rows")
  void samplesAreThoseThatWentIn(String row) throws IOException {
    String[] cells = row.split(",");
    Path file = folder.resolve(cells[0]);
    Files.write(file, bytes(cells[0]));
    AudioFormat format =
        AudioFormat.pcm(
            Integer.parseInt(cells[1]), Integer.parseInt(cells[2]), Integer.parseInt(cells[3]));
    try (FlacSideReader side = FlacSideReader.open(file)) {
      assertThat(side.format()).isEqualTo(format);
      assertThat(side.frames()).isEqualTo(Long.parseLong(cells[4]));
      long[][] words = FlacTestFiles.read(side);
      SampleDigest digest = new SampleDigest(format);
      digest.update(words, 0, words[0].length);
      assertThat(digest.hex()).isEqualTo(cells[5]);
      FlacTestFiles.assertComesBack(file, format, words);
    }
  }
}
