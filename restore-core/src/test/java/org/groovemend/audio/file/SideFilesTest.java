package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.HexFormat;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SideReader;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SideFilesTest {

  private static final AudioFormat CD = AudioFormat.pcm(44_100, 2, 16);

  @TempDir Path folder;

  @Test
  void missingFileAndFolderAreRefusedByName() {
    Path none = folder.resolve("none.wav");
    assertThatThrownBy(() -> SideFiles.open(none))
        .isInstanceOf(InputRejectedException.class)
        .hasMessage(none + ": there is no such file; check the name and the folder.");
    assertThatThrownBy(() -> SideFiles.open(folder))
        .isInstanceOf(InputRejectedException.class)
        .hasMessage(folder + ": it is a folder; name one audio file in it.");
  }

  @Test
  void unreadableFileIsRefused() throws IOException {
    Path locked = Files.write(folder.resolve("locked.wav"), new byte[20]);
    assertThat(locked.toFile().setReadable(false, false)).isTrue();
    Assumptions.assumeFalse(Files.isReadable(locked), "this user may read everything");
    assertThatThrownBy(() -> SideFiles.open(locked))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining("may not read it");
  }

  @ParameterizedTest
  @CsvSource({
    "000000206674797069736f6d,MP4",
    "fffb9064,MP3",
    "fff15080,no kind", // ADTS has the reserved layer
    "2e736e64,AU file",
    "726966662e91cf11,Wave64",
    "504b0304,ZIP",
    "00000000,no kind",
    "52,no kind",
    "52494646,ends before its first chunk",
  })
  void otherFilesAreNamedWhereTheirFirstBytesTell(String hex, String words) throws IOException {
    Path path = Files.write(folder.resolve("x.wav"), HexFormat.of().parseHex(hex));
    assertThatThrownBy(() -> SideFiles.open(path))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining(words);
  }

  @Test
  void flacIsRecognisedAlsoBehindAnId3Tag() throws IOException {
    byte[] plain = "fLaC".getBytes(StandardCharsets.US_ASCII);
    byte[] tagged =
        FileBuilder.part(false)
            .ascii("ID3")
            .hex("0400 00 00000105")
            .raw(new byte[133])
            .raw(plain)
            .content();
    for (byte[] file : new byte[][] {plain, tagged}) {
      Path path = Files.write(folder.resolve("side"), file);
      try (var channel = java.nio.channels.FileChannel.open(path)) {
        assertThat(FileKind.of(new SideBytes(path, channel))).isEqualTo(FileKind.FLAC);
      }
    }
  }

  @Test
  void theOriginalIsNeverChanged() throws IOException {
    byte[] file = FileBuilder.wav().fmt(CD).chunk("data", new byte[400]).bytes();
    Path path = Files.write(folder.resolve("side.wav"), file);
    FileTime past = FileTime.fromMillis(1_000_000_000_000L);
    Files.setLastModifiedTime(path, past);
    try (SideReader side = SideFiles.open(path)) {
      Sides.read(side);
      Sides.rebuild(side);
    }
    assertThat(path).hasBinaryContent(file);
    assertThat(Files.getLastModifiedTime(path)).isEqualTo(past);
  }

  @Test
  void readingOutsideTheSideIsAnError() throws IOException {
    byte[] file = FileBuilder.wav().fmt(CD).chunk("data", new byte[400]).bytes();
    try (SideReader side = Sides.open(folder, file)) {
      long[][] into = new long[2][200];
      assertThatThrownBy(() -> side.readWords(90, 11, into, 0))
          .isInstanceOf(IndexOutOfBoundsException.class);
      assertThatThrownBy(() -> side.readWords(-1, 1, into, 0))
          .isInstanceOf(IndexOutOfBoundsException.class);
    }
  }

  @Test
  void aFileThatShrinksWhileItIsReadIsRefusedAtThePlace() throws IOException {
    byte[] file = FileBuilder.wav().fmt(CD).chunk("data", new byte[400]).bytes();
    try (SideReader side = Sides.open(folder, file)) {
      Files.write(side.path(), Arrays.copyOf(file, 100));
      assertThatThrownBy(() -> Sides.read(side))
          .isInstanceOf(InputRejectedException.class)
          .hasMessageContaining("at byte 100: the file became shorter");
    }
  }

  @Test
  void partsAndLayoutTellTheWholeFile() throws IOException {
    byte[] file =
        FileBuilder.wav()
            .fmt(CD)
            .chunk("bext", new byte[100_001])
            .chunk("data", new byte[400])
            .chunk("LIST", new byte[4])
            .bytes();
    try (SideReader side = Sides.open(folder, file)) {
      assertThat(side.parts())
          .containsExactly("fmt 16 bytes", "bext 100001 bytes", "data 400 bytes", "LIST 4 bytes");
      var pieces = new java.util.ArrayList<LayoutPiece>();
      side.describeLayout(pieces::add);
      assertThat(pieces).hasSize(5); // three before the samples, for at most 48 KiB each
      assertThat(pieces.get(3)).isEqualTo(new LayoutPiece.PcmFrames(0, 100, false));
    }
  }
}
