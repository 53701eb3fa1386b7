package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WavWriterTest {

  private static final AudioFormat CD = AudioFormat.pcm(44_100, 2, 16);
  private static final AudioFormat WIDE = AudioFormat.pcm(96_000, 2, 24);

  @TempDir Path folder;

  private byte[] write(AudioFormat format, long[][] words, List<WavChunk> chunks, SideReader from)
      throws IOException {
    Path path = folder.resolve("out.wav");
    Files.deleteIfExists(path);
    try (WavWriter writer = WavWriter.create(path, format, words[0].length, chunks, from)) {
      writer.write(words, 0, words[0].length);
    }
    return Files.readAllBytes(path);
  }

  @Test
  void sixteenBitsGetThePlainFormat() throws IOException {
    long[][] words = {{1, -2}, {3, 0x7fff}};
    byte[] expected =
        FileBuilder.wav().fmt(CD).chunk("data", FileBuilder.samples(words, CD, false)).bytes();
    assertThat(write(CD, words, List.of(), null)).isEqualTo(expected);
    assertThat(write(CD, words, List.of(WavChunk.samples()), null)).isEqualTo(expected);
  }

  @Test
  void wideSamplesGetTheExtensibleFormatOfTheReferencePage() throws IOException {
    byte[] file = write(WIDE, new long[2][1], List.of(), null);
    // check values, section 7: fmt chunk two general audio programs write for 96 kHz, 24 bits,
    // stereo
    byte[] expected =
        FileBuilder.part(false)
            .hex("feff 0200 00770100 00ca0800 0600 1800 1600 1800 03000000 0100")
            .hex("0000 0000 1000 8000 00AA 0038 9B71")
            .content();
    assertThat(Arrays.copyOfRange(file, 20, 60)).isEqualTo(expected);
  }

  @Test
  void unusedLowBitsAreKeptInTheFormat() throws IOException {
    AudioFormat format = new AudioFormat(48_000, 1, SampleCoding.PCM, 24, 20);
    write(format, new long[][] {{16, -32, 48}}, List.of(), null);
    try (SideReader side = SideFiles.open(folder.resolve("out.wav"))) {
      assertThat(side.format()).isEqualTo(format);
      assertThat(side.notices()).isEmpty();
    }
  }

  @Test
  void floatGetsAFactChunkAndOddSamplesGetPadding() throws IOException {
    AudioFormat format = AudioFormat.ieeeFloat(48_000, 1, 32);
    byte[] file = write(format, new long[1][5], List.of(), null);
    byte[] fmt = FileBuilder.part(false).raw(FileBuilder.plainFmt(format)).number(0, 2).content();
    assertThat(file)
        .isEqualTo(
            FileBuilder.wav()
                .chunk("fmt ", fmt)
                .chunk("fact", new byte[] {5, 0, 0, 0})
                .chunk("data", new byte[20])
                .bytes());
    byte[] odd =
        write(
            AudioFormat.pcm(48_000, 1, 24),
            new long[1][1],
            List.of(WavChunk.samples(), WavChunk.of("abcd", new byte[] {7})),
            null);
    assertThat(odd).hasSize(12 + 48 + 8 + 4 + 8 + 2).endsWith('a', 'b', 'c', 'd', 1, 0, 0, 0, 7, 0);
  }

  @Test
  void aFileWithTooFewOrTooManyFramesIsNotFinished() throws IOException {
    WavWriter few = WavWriter.create(folder.resolve("few.wav"), CD, 3, List.of(), null);
    few.write(new long[2][2], 0, 2);
    assertThatThrownBy(few::close)
        .isInstanceOf(IOException.class)
        .hasMessage("the file was announced with 3 frames and got 2");
    assertThatCode(few::close).doesNotThrowAnyException();
    try (WavWriter many = WavWriter.create(folder.resolve("many.wav"), CD, 1, List.of(), null)) {
      assertThatThrownBy(() -> many.write(new long[2][2], 0, 2))
          .isInstanceOf(IllegalArgumentException.class);
      many.write(new long[2][1], 0, 1);
    }
  }

  @Test
  void anExistingFileIsNotTouched() throws IOException {
    Path path = Files.write(folder.resolve("there.wav"), new byte[] {1, 2, 3});
    assertThatThrownBy(() -> WavWriter.create(path, CD, 1, List.of(), null))
        .isInstanceOf(FileAlreadyExistsException.class);
    assertThat(path).hasBinaryContent(new byte[] {1, 2, 3});
  }

  @Test
  void chunksThatCannotBeAreRefusedBeforeAFileIsMade() throws IOException {
    Path path = folder.resolve("never.wav");
    List<List<WavChunk>> wrong =
        List.of(
            List.of(WavChunk.samples(), WavChunk.samples()),
            List.of(new WavChunk("LIST", 40, 4, null)),
            List.of(new WavChunk("LIST", -1, 9, new byte[4])),
            List.of(WavChunk.of("abcde", new byte[1])),
            List.of(WavChunk.of("fmt ", FileBuilder.plainFmt(CD))));
    for (List<WavChunk> chunks : wrong) {
      assertThatThrownBy(() -> WavWriter.create(path, CD, 1, chunks, null))
          .isInstanceOf(IllegalArgumentException.class);
    }
    byte[] file = FileBuilder.wav().fmt(WIDE).chunk("data", new byte[6]).bytes();
    try (SideReader side = Sides.open(folder, file)) {
      List<WavChunk> chunks = side.wavChunks();
      assertThatThrownBy(() -> WavWriter.create(path, CD, 1, chunks, side))
          .isInstanceOf(IllegalArgumentException.class);
    }
    assertThat(path).doesNotExist();
  }

  @Test
  void aChunkMayBeReplacedWhileOthersAreCopied() throws IOException {
    byte[] original =
        FileBuilder.wav()
            .chunk("bext", new byte[602])
            .fmt(CD)
            .chunk("big ", AwkwardFiles.bytes(new Random(5), 3_000_001))
            .chunk("data", new byte[40])
            .bytes();
    byte[] expected =
        FileBuilder.wav()
            .chunk("bext", new byte[] {1, 2, 3})
            .fmt(CD)
            .chunk("big ", AwkwardFiles.bytes(new Random(5), 3_000_001))
            .chunk("data", new byte[40])
            .bytes();
    try (SideReader side = Sides.open(folder, original)) {
      List<WavChunk> chunks =
          side.wavChunks().stream()
              .map(c -> c.id().equals("bext") ? WavChunk.of("bext", new byte[] {1, 2, 3}) : c)
              .toList();
      assertThat(write(CD, new long[2][10], chunks, side)).isEqualTo(expected);
    }
  }

  /**
   * Check values, section 7: a forced RF64 file of 5,898 bytes has riffSize 5,890, dataSize 5,760,
   * sampleCount 960.
   */
  @Test
  void rf64HeaderHoldsTheSizesOfTheReferenceFile() {
    List<WavChunk> chunks =
        List.of(WavChunk.of("LIST", new byte[26]), WavChunk.samples()); // 5898 - 5760 - 8 - 48 - 48
    WavPlan plan = WavPlan.of(WIDE, 960, chunks, WavKind.RF64);
    assertThat(plan.totalBytes()).isEqualTo(5_898);
    assertThat(plan.head())
        .isEqualTo(
            FileBuilder.part(false)
                .ascii("RF64")
                .hex("ffffffff")
                .ascii("WAVE")
                .chunk("ds64", FileBuilder.ds64(5_890, 5_760, 960))
                .content());
    assertThat(plan.dataHeader()).isEqualTo(new byte[] {'d', 'a', 't', 'a', -1, -1, -1, -1});
  }

  /**
   * Check values, section 7: 96 kHz, 24 bits, stereo reaches the limit of plain RIFF after 2 h 4
   * min 16 s.
   */
  @Test
  void plainRiffGivesWayToRf64AtFourGibibytes() {
    int header = 12 + 48 + 8;
    long most = (0xffff_ffffL - header) / 6;
    assertThat(most / 96_000).isEqualTo(2 * 3_600 + 4 * 60 + 16);
    assertThat(WavPlan.of(WIDE, most, List.of(), WavKind.RIFF).kind()).isEqualTo(WavKind.RIFF);
    assertThat(WavPlan.of(WIDE, most + 1, List.of(), WavKind.RIFF).kind()).isEqualTo(WavKind.RF64);
    assertThat(WavPlan.of(WIDE, 5, List.of(), WavKind.BW64).kind()).isEqualTo(WavKind.BW64);
  }

  @Test
  void aFileOverFourGibibytesIsReadAtItsEnd() throws IOException {
    for (String kind : List.of("RF64", "BW64", "RIFF")) {
      long frames = 800_000_000;
      WavPlan plan =
          WavPlan.of(WIDE, frames, List.of(), kind.equals("BW64") ? WavKind.BW64 : WavKind.RF64);
      byte[] head =
          FileBuilder.part(false)
              .raw(plan.head())
              .chunk("fmt ", FileBuilder.extensibleFmt(WIDE))
              .raw(plan.dataHeader())
              .content();
      if (kind.equals("RIFF")) { // as a program writes it that keeps the low 32 bits of each size
        long low = frames * 6 & 0xffff_ffffL;
        head =
            FileBuilder.wav()
                .wholeSize(60 + frames * 6 & 0xffff_ffffL)
                .chunk("fmt ", FileBuilder.extensibleFmt(WIDE))
                .chunk("data", low, new byte[0], false)
                .bytes();
      }
      byte[] tail = {1, 2, 3, -1, -1, -1};
      Path path = folder.resolve("large.wav");
      try (FileChannel out =
          FileChannel.open(
              path,
              StandardOpenOption.CREATE,
              StandardOpenOption.WRITE,
              StandardOpenOption.TRUNCATE_EXISTING,
              StandardOpenOption.SPARSE)) {
        out.write(ByteBuffer.wrap(head));
        out.write(ByteBuffer.wrap(tail), head.length + frames * 6 - 6);
      }
      try (SideReader side = SideFiles.open(path)) {
        assertThat(side.frames()).as(kind).isEqualTo(frames);
        assertThat(side.notices()).as(kind).hasSize(kind.equals("RIFF") ? 1 : 0);
        long[][] words = new long[2][2];
        side.readWords(frames - 2, 2, words, 0);
        assertThat(words).isDeepEqualTo(new long[][] {{0, 0x030201}, {0, -1}});
      } finally {
        Files.delete(path);
      }
    }
  }
}
