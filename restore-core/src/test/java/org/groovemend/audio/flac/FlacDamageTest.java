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
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** No damage to the frames goes unnoticed; damage elsewhere is harmless or noticed. */
class FlacDamageTest {

  private static final AudioFormat FORMAT = AudioFormat.pcm(96_000, 2, 24);

  @TempDir Path folder;
  private Path file;
  private long[][] words;
  private byte[] sound;
  private int framesOffset;

  /** Four frames of several kinds: tone, silence, noise. */
  @BeforeEach
  void makeFile() throws IOException {
    words = Signals.tone(24, 2, 120, 1);
    for (long[] channel : words) {
      Arrays.fill(channel, 64, 96, 0);
    }
    long[][] noise = Signals.noise(24, 2, 32, 2);
    System.arraycopy(noise[0], 0, words[0], 32, 32);
    System.arraycopy(noise[1], 0, words[1], 32, 32);
    CraftedStream stream = new CraftedStream(96_000, 24, words);
    stream.blockSizes = new int[] {32};
    sound = stream.toBytes();
    framesOffset = 4 + 4 + StreamInfo.BYTES;
    file = folder.resolve("side.flac");
  }

  private long[][] readAll(byte[] bytes) throws IOException {
    FlacTestFiles.store(file, bytes);
    return FlacTestFiles.read(file);
  }

  @Test
  void soundFileIsReadWithoutNotice() throws IOException {
    assertThat(readAll(sound)).isDeepEqualTo(words);
  }

  @Test
  void everyFlippedBitOfTheFramesIsNoticed() throws IOException {
    for (int bit = 8 * framesOffset; bit < 8 * sound.length; bit++) {
      byte[] flipped = sound.clone();
      flipped[bit / 8] ^= (byte) (0x80 >> bit % 8);
      assertThatThrownBy(() -> readAll(flipped))
          .as("bit %d", bit)
          .isInstanceOf(InputRejectedException.class)
          .hasMessageContaining("at byte ")
          .hasMessageContaining("FLAC frame ");
    }
  }

  @Test
  void everyTruncationIsNoticed() {
    for (int length = 0; length < sound.length; length++) {
      byte[] cut = Arrays.copyOf(sound, length);
      assertThatThrownBy(() -> readAll(cut))
          .as("length %d", length)
          .isInstanceOf(InputRejectedException.class);
    }
  }

  @Test
  void everyRemovedByteOfTheFramesIsNoticed() {
    for (int at = framesOffset; at < sound.length; at++) {
      byte[] shorter = Arrays.copyOf(sound, sound.length - 1);
      System.arraycopy(sound, at + 1, shorter, at, shorter.length - at);
      assertThatThrownBy(() -> readAll(shorter)).isInstanceOf(InputRejectedException.class);
    }
  }

  @Test
  void placeOfTheDamageIsNamed() {
    byte[] flipped = sound.clone();
    int lastFrame = lastFrameOffset();
    flipped[sound.length - 7] ^= 1;
    assertThatThrownBy(() -> readAll(flipped))
        .hasMessageContaining("at byte " + lastFrame + " (FLAC frame 3, sample 96)");
  }

  private int lastFrameOffset() {
    int at = sound.length - 1;
    // FF F8, then the codes, 96 kHz
    while ((sound[at] & 0xff) != 0xff || (sound[at + 1] & 0xff) != 0xf8) {
      at--;
    }
    return at;
  }

  @Test
  void everyFlippedBitOfTheMd5IsNoticed() {
    for (int bit = 8 * (framesOffset - 16); bit < 8 * framesOffset; bit++) {
      byte[] flipped = sound.clone();
      flipped[bit / 8] ^= (byte) (0x80 >> bit % 8);
      assertThatThrownBy(() -> readAll(flipped))
          .isInstanceOf(InputRejectedException.class)
          .hasMessageContaining("MD5");
    }
  }

  @Test
  void wrongMd5IsNoticedInWhateverOrderTheSideIsRead() throws IOException {
    byte[] wrong = sound.clone();
    wrong[framesOffset - 1] ^= 1;
    Files.write(file, wrong);
    long[][] into = new long[2][120];
    try (FlacSideReader side = FlacSideReader.open(file)) {
      side.readWords(0, 90, into, 0);
      assertThatThrownBy(() -> side.readWords(119, 1, into, 0))
          .isInstanceOf(InputRejectedException.class);
      // and nothing is given out any more
      assertThatThrownBy(() -> side.readWords(0, 90, into, 0))
          .isInstanceOf(InputRejectedException.class);
    }
    try (FlacSideReader side = FlacSideReader.open(file)) {
      assertThatThrownBy(() -> side.describeLayout(piece -> {}))
          .isInstanceOf(InputRejectedException.class);
    }
  }

  @Test
  void flippedBitOfTheMetadataIsHarmlessOrNoticed() throws IOException {
    FlacTestFiles.write(file, FORMAT, words);
    byte[] ours = Files.readAllBytes(file);
    int noticed = 0;
    int metadata = ours.length;
    while ((ours[metadata - 1] & 0xff) != 0xf8 || (ours[metadata - 2] & 0xff) != 0xff) {
      metadata--;
    }
    for (int bit = 0; bit < 8 * (metadata - 2); bit++) {
      byte[] flipped = ours.clone();
      flipped[bit / 8] ^= (byte) (0x80 >> bit % 8);
      try {
        assertThat(readAll(flipped)).isDeepEqualTo(words);
      } catch (InputRejectedException e) {
        noticed++;
      }
    }
    // marker 32, MD5 128, number of samples 36, shape 28, block types and lengths
    assertThat(noticed).isGreaterThan(32 + 128 + 36 + 28);
  }

  @Test
  void anyRubbishEndsInTheOneKindOfRejection() throws IOException {
    Random random = new Random(11);
    for (int i = 0; i < 800; i++) {
      byte[] bytes = sound.clone();
      int from = random.nextInt(4) == 0 ? 0 : framesOffset;
      for (int n = 1 + random.nextInt(6); n > 0; n--) {
        int at = from + random.nextInt(bytes.length - from);
        bytes[at] = (byte) random.nextInt();
      }
      try {
        long[][] read = readAll(bytes);
        // only changes of the metadata that do not matter, or no change at all
        assertThat(read).isDeepEqualTo(words);
      } catch (InputRejectedException e) {
        assertThat(e.where()).isNotBlank();
      }
    }
  }

  /** Frames whose checksums hold but whose content no encoder could mean. */
  @Test
  void rubbishWithRightChecksumsNeverEndsInAnotherException() {
    StreamInfo info = StreamInfo.parse(Arrays.copyOfRange(sound, 8, framesOffset));
    byte[] frame = Arrays.copyOfRange(sound, framesOffset, lastFrameOffset());
    FrameHeader header = new FrameHeader();
    Random random = new Random(12);
    int taken = 0;
    for (int i = 0; i < 20_000; i++) {
      byte[] bytes = Arrays.copyOf(frame, frame.length + BitReader.SLACK);
      for (int n = 1 + random.nextInt(4); n > 0; n--) {
        bytes[random.nextInt(40)] = (byte) random.nextInt();
      }
      bytes[7] = (byte) FrameCrc.crc8(bytes, 0, 7);
      FrameReader reader = new FrameReader(info);
      try {
        header.parse(bytes, 0, frame.length, info);
        taken++;
        reader.read(bytes, 0, frame.length);
      } catch (DamagedFrameException e) {
        assertThat(e.getMessage()).isNotBlank();
      }
    }
    assertThat(taken).as("headers that were fine").isPositive();
  }
}
