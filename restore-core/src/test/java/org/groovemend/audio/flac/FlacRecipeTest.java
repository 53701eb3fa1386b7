package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.Deflater;
import java.util.zip.Inflater;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FlacRecipeTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(96_000, 2, 24);

  @TempDir Path folder;

  private Path file(long[][] words) throws IOException {
    Path file = folder.resolve("side.flac");
    FlacTestFiles.write(file, FORMAT, words);
    return file;
  }

  @Test
  void piecesCoverTheFileInOrder() throws IOException {
    long[][] words = Signals.tone(24, 2, 100_000, 1);
    List<LayoutPiece> pieces = FlacTestFiles.layout(file(words));
    long next = 0;
    for (LayoutPiece piece : pieces) {
      if (piece instanceof LayoutPiece.FlacFrames f) {
        assertThat(f.firstFrame()).isEqualTo(next);
        next += f.frames();
      }
    }
    assertThat(next).isEqualTo(100_000);
    assertThat(pieces.get(0)).isInstanceOf(LayoutPiece.Bytes.class);
  }

  /** The recipe holds no samples: with others it gives another file of the same decisions. */
  @Test
  void otherSamplesGiveOtherBytes() throws IOException {
    long[][] words = Signals.tone(24, 2, 20_000, 1);
    Path file = file(words);
    List<LayoutPiece> pieces = FlacTestFiles.layout(file);
    words[0][10_000]++;
    assertThat(FlacTestFiles.rebuild(pieces, new FlacTestFiles.Memory(FORMAT, words)))
        .isNotEqualTo(Files.readAllBytes(file));
  }

  @Test
  void recipeIsSmall() throws IOException {
    long[][] words = Signals.tone(24, 2, 96_000, 1);
    Path file = file(words);
    assertThat(FlacTestFiles.recipeBytes(FlacTestFiles.layout(file)))
        .isLessThan((int) (Files.size(file) / 200));
  }

  @Test
  void recipesOfSeveralGroupsStandAlone() throws IOException {
    long[][] words = Signals.noise(24, 2, 160_000, 1, 9);
    CraftedStream stream = new CraftedStream(96_000, 24, words);
    stream.blockSizes = new int[] {16};
    Path file = folder.resolve("many.flac");
    Files.write(file, stream.toBytes());
    List<LayoutPiece> pieces = FlacTestFiles.layout(file);
    assertThat(pieces.stream().filter(p -> p instanceof LayoutPiece.FlacFrames).count())
        .isGreaterThan(1);
    FlacTestFiles.assertComesBack(file, FORMAT, words);
  }

  @Test
  void recipeThatDoesNotFitIsRefused() throws IOException {
    long[][] words = Signals.tone(24, 2, 5_000, 1);
    LayoutPiece.FlacFrames piece = frames(file(words));
    FlacTestFiles.Memory side = new FlacTestFiles.Memory(FORMAT, words);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    byte[] other = piece.recipe().clone();
    other[0] = 9;
    assertThatThrownBy(() -> FlacFrameRebuilder.rebuild(other, side, 0, 5000, out))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("version");
    assertThatThrownBy(() -> FlacFrameRebuilder.rebuild(piece.recipe(), side, 0, 4999, out))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("more samples");
    assertThatThrownBy(() -> FlacFrameRebuilder.rebuild(piece.recipe(), side, 0, 4096, out))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("after the last frame");
    AudioFormat narrow = AudioFormat.pcm(96_000, 2, 16);
    FlacTestFiles.Memory small = new FlacTestFiles.Memory(narrow, words);
    assertThatThrownBy(() -> FlacFrameRebuilder.rebuild(piece.recipe(), small, 0, 5000, out))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("24 bits");
    for (int length = 0; length < piece.recipe().length; length++) {
      byte[] cut = Arrays.copyOf(piece.recipe(), length);
      assertThatThrownBy(() -> FlacFrameRebuilder.rebuild(cut, side, 0, 5000, out))
          .isInstanceOf(IOException.class);
    }
  }

  /**
   * A recipe made up to do harm, with the checksum of its packing right, ends in an IOException or
   * in other bytes.
   */
  @Test
  void damagedRecipeNeverEndsInAnotherException() throws Exception {
    long[][] words = Signals.tone(24, 2, 5_000, 1);
    LayoutPiece.FlacFrames piece = frames(file(words));
    FlacTestFiles.Memory side = new FlacTestFiles.Memory(FORMAT, words);
    Inflater inflater = new Inflater();
    inflater.setInput(piece.recipe(), 2, piece.recipe().length - 2);
    byte[] body = new byte[1 << 16];
    int length = inflater.inflate(body);
    inflater.end();
    Random random = new Random(3);
    int refused = 0;
    for (int i = 0; i < 3000; i++) {
      byte[] changed = Arrays.copyOf(body, length);
      changed[random.nextInt(length)] = (byte) random.nextInt();
      changed[random.nextInt(length)] ^= (byte) (1 << random.nextInt(8));
      ByteArrayOutputStream recipe = new ByteArrayOutputStream();
      recipe.write(piece.recipe(), 0, 2);
      Deflater deflater = new Deflater();
      deflater.setInput(changed);
      deflater.finish();
      byte[] packed = new byte[1 << 16];
      recipe.write(packed, 0, deflater.deflate(packed));
      deflater.end();
      try {
        FlacFrameRebuilder.rebuild(
            recipe.toByteArray(), side, 0, 5000, new ByteArrayOutputStream());
      } catch (IOException e) {
        refused++;
      }
    }
    assertThat(refused).isPositive();
  }

  private static LayoutPiece.FlacFrames frames(Path file) throws IOException {
    return FlacTestFiles.layout(file).stream()
        .filter(p -> p instanceof LayoutPiece.FlacFrames)
        .map(p -> (LayoutPiece.FlacFrames) p)
        .findFirst()
        .orElseThrow();
  }
}
