package org.groovemend.tags;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.groovemend.audio.InputRejectedException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CoverTest {

  @TempDir private Path dir;

  private Path file(byte[] bytes) throws IOException {
    return Files.write(dir.resolve("label.picture"), bytes);
  }

  @Test
  void shapesAreThoseThePicturesWereMadeWith() throws IOException {
    assertThat(Cover.read(file(Examples.picture("png", 31, 17))).shape())
        .isEqualTo(new PictureShape("image/png", 31, 17, 24, 0));
    assertThat(Cover.read(file(Examples.picture("jpg", 31, 17))).shape())
        .isEqualTo(new PictureShape("image/jpeg", 31, 17, 24, 0));
  }

  @Test
  void aBadPictureGetsOneSentence() throws IOException {
    refused("not a picture".getBytes(StandardCharsets.UTF_8), "neither a JPEG nor a PNG");
    refused(new byte[0], "neither a JPEG nor a PNG");
    refused(new byte[Cover.MAX_BYTES + 1], "too large");
    assertThatThrownBy(() -> Cover.read(dir.resolve("none.png")))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining("there is no such picture");
  }

  private void refused(byte[] bytes, String said) throws IOException {
    Path file = file(bytes);
    assertThatThrownBy(() -> Cover.read(file))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageStartingWith(file + ": ")
        .hasMessageContaining(said)
        .hasMessageEndingWith("; give a JPEG or PNG picture of less than 16 MB.");
  }

  @Test
  void everyTruncationIsFound() throws IOException {
    for (String format : new String[] {"png", "jpg"}) {
      byte[] whole = Examples.picture(format, 9, 9);
      for (int n = 0; n < whole.length; n++) {
        byte[] part = Arrays.copyOf(whole, n);
        assertThatThrownBy(() -> Cover.of(part)).isInstanceOf(IllegalArgumentException.class);
      }
    }
  }

  /** A PNG says so itself; a JPEG has no checksum, only its headers are looked at. */
  @Test
  void everyFlippedByteOfAPngIsFound() throws IOException {
    byte[] whole = Examples.picture("png", 9, 9);
    for (int n = 0; n < whole.length; n++) {
      byte[] flipped = whole.clone();
      flipped[n] ^= 0x10;
      assertThatThrownBy(() -> Cover.of(flipped)).isInstanceOf(IllegalArgumentException.class);
    }
  }
}
