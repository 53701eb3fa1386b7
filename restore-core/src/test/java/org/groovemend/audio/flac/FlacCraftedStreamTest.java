package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Legal but rare streams, made by hand. */
class FlacCraftedStreamTest {

  private static final int HEADER_BYTES = 4 + 4 + StreamInfo.BYTES;

  @TempDir Path folder;

  private Path file(byte[] bytes) throws IOException {
    Path file = folder.resolve("crafted.flac");
    FlacTestFiles.store(file, bytes);
    return file;
  }

  private Path assertDecodes(CraftedStream stream) throws IOException, InterruptedException {
    Path file = file(stream.toBytes());
    assertThat(FlacTestFiles.read(file)).isDeepEqualTo(stream.words);
    AudioFormat format = AudioFormat.pcm(stream.rate, stream.words.length, stream.bits);
    FlacTestFiles.assertComesBack(file, format, stream.words);
    return file;
  }

  @Test
  void blocksOfVariableSizeAreNumberedByTheirFirstSample() throws Exception {
    CraftedStream stream = new CraftedStream(96_000, 24, Signals.tone(24, 2, 5_000, 1));
    stream.variable = true;
    stream.blockSizes = new int[] {192, 17, 576, 1, 256, 999};
    Path file = assertDecodes(stream);

    Tool.FLAC.assumeInstalled();
    Tool.FLAC.run(folder, "-t", file);
  }

  @Test
  void everyChannelAssignmentDecodes() throws Exception {
    for (int bits : new int[] {16, 24, 32}) {
      CraftedStream stream = new CraftedStream(48_000, bits, Signals.square(bits, 2, 700));
      ChannelAssignment[] all = {
        ChannelAssignment.LEFT_SIDE,
        ChannelAssignment.SIDE_RIGHT,
        ChannelAssignment.MID_SIDE,
        ChannelAssignment.LEFT_RIGHT
      };
      stream.decide =
          (f, plan) -> {
            plan.header.assignment = all[f % 4];
            for (SubframePlan sub : plan.subframes) {
              sub.type = f % 8 < 4 ? SubframeType.VERBATIM : SubframeType.FIXED;
              sub.order = f % 8 < 4 ? 0 : 1;
              sub.wastedBits = 0;
            }
          };
      if (bits == 32) {
        // a difference of the full 33-bit scale has no residual of 32 bits: verbatim only
        stream.decide =
            stream.decide.andThen(
                (f, plan) -> {
                  plan.subframes[0].type = SubframeType.VERBATIM;
                  plan.subframes[1].type = SubframeType.VERBATIM;
                  plan.subframes[0].order = 0;
                  plan.subframes[1].order = 0;
                });
      }
      Files.move(assertDecodes(stream), folder.resolve(bits + ".flac"));
    }
    Tool.FLAC.assumeInstalled();
    Tool.FLAC.run(folder, "-t", "16.flac", "24.flac", "32.flac");
  }

  @Test
  void partitionsThatAreNotRiceCodedDecode() throws Exception {
    CraftedStream stream = new CraftedStream(48_000, 16, Signals.noise(16, 2, 640, 3, 9));
    stream.decide =
        (f, plan) -> {
          plan.header.assignment = ChannelAssignment.LEFT_RIGHT;
          for (SubframePlan sub : plan.subframes) {
            sub.type = SubframeType.FIXED;
            sub.order = f % 5;
            sub.wastedBits = 0;
          }
        };
    stream.partition =
        (f, sub) -> {
          sub.parameterBits = 4 + (f & 1);
          sub.setPartitionOrder(2);
          for (int p = 0; p < 4; p++) {
            sub.rawBits[p] = p == 1 ? SubframePlan.RICE : 16 + p;
            sub.parameters[p] = 3;
          }
        };
    Path file = assertDecodes(stream);

    Tool.FLAC.assumeInstalled();
    Tool.FLAC.run(folder, "-t", file);
  }

  /** A padding bit that is set is no damage to the samples but has no place in a recipe. */
  @Test
  void frameThatTheRecipeHasNoWordsForIsKeptWhole() throws Exception {
    CraftedStream stream = new CraftedStream(48_000, 24, Signals.noise(24, 1, 65, 3));
    stream.blockSizes = new int[] {65};
    stream.decide =
        (f, plan) -> {
          plan.subframes[0].type = SubframeType.FIXED;
          plan.subframes[0].order = 1;
          plan.subframes[0].wastedBits = 0;
        };
    byte[] plain = stream.toBytes();
    byte[] frame = Arrays.copyOfRange(plain, HEADER_BYTES, plain.length);
    FrameHeader header = new FrameHeader();
    StreamInfo info = StreamInfo.parse(Arrays.copyOfRange(plain, 8, HEADER_BYTES));
    int headerEnd = header.parse(frame, 0, frame.length, info);
    FrameReader reader = new FrameReader(info);
    BitReader bits = new BitReader();
    bits.set(Arrays.copyOf(frame, frame.length + BitReader.SLACK), headerEnd, frame.length);
    SubframeReader.read(bits, 24, 65, reader.plan.subframes[0], new int[65], new int[65]);
    assertThat(bits.position & 7).as("the example has room for padding").isNotZero();

    byte[] padded = frame.clone();
    padded[frame.length - 3] |= 1;
    padded = CraftedStream.withChecksums(padded, headerEnd - 1);
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    whole.write(plain, 0, HEADER_BYTES);
    whole.writeBytes(padded);
    AudioFormat format = AudioFormat.pcm(48_000, 1, 24);

    int usual = FlacTestFiles.recipeBytes(FlacTestFiles.layout(file(plain)));
    Path odd = file(whole.toByteArray());
    assertThat(FlacTestFiles.read(odd)).isDeepEqualTo(stream.words);
    FlacTestFiles.assertComesBack(odd, format, stream.words);
    assertThat(FlacTestFiles.recipeBytes(FlacTestFiles.layout(odd)))
        .isGreaterThan(padded.length)
        .isGreaterThan(4 * usual);
  }

  @Test
  void tagsBeforeAndAfterTheStreamAreKept() throws Exception {
    CraftedStream stream = new CraftedStream(44_100, 16, Signals.tone(16, 2, 300, 1));
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    whole.writeBytes("ID3".getBytes(StandardCharsets.US_ASCII));
    whole.writeBytes(new byte[] {4, 0, 0, 0, 0, 1, 2});
    whole.writeBytes(new byte[130]);
    whole.writeBytes(stream.toBytes());
    byte[] tag = Arrays.copyOf("TAGinvented".getBytes(StandardCharsets.US_ASCII), 128);
    whole.writeBytes(tag);
    Path file = file(whole.toByteArray());

    FlacTestFiles.assertComesBack(file, AudioFormat.pcm(44_100, 2, 16), stream.words);
    try (FlacSideReader side = FlacSideReader.open(file)) {
      assertThat(side.parts()).containsExactly("ID3v2 tag 140 bytes", "STREAMINFO 34 bytes");
      assertThat(FlacTestFiles.read(side)).isDeepEqualTo(stream.words);
      assertThat(side.notices()).singleElement().asString().contains("tag of another kind");
      assertThat(side.container()).isEqualTo("FLAC");
      assertThat(side.wavChunks()).singleElement().matches(chunk -> chunk.isSamples());
    }
    stream.unknownLength = true;
    byte[] counted = Arrays.copyOf(stream.toBytes(), stream.toBytes().length + 128);
    System.arraycopy(tag, 0, counted, counted.length - 128, 128);
    assertThat(FlacTestFiles.read(file(counted))).isDeepEqualTo(stream.words);
  }

  @Test
  void secondStreamOrFramesBeyondTheLengthAreRefused() throws Exception {
    CraftedStream stream = new CraftedStream(44_100, 16, Signals.tone(16, 2, 300, 1));
    byte[] one = stream.toBytes();
    byte[] two = Arrays.copyOf(one, 2 * one.length);
    System.arraycopy(one, 0, two, one.length, one.length);
    assertThatThrownBy(() -> FlacTestFiles.read(file(two)))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining("second FLAC stream");

    byte[] shorter = one.clone();
    // total samples 300 -> 256, which the fourth frame of 64 ends with
    shorter[8 + 16] = 1;
    shorter[8 + 17] = 0;
    stream.withoutMd5 = true;
    System.arraycopy(new byte[16], 0, shorter, 8 + 18, 16);
    assertThatThrownBy(() -> FlacTestFiles.read(file(shorter)))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining("frames follow after the 256 samples")
        .hasMessageContaining("FLAC frame 3, sample 192");
  }

  @Test
  void streamOfUnknownLengthIsCountedAndItsCutNoticedByTheMd5() throws Exception {
    CraftedStream stream = new CraftedStream(44_100, 16, Signals.tone(16, 2, 320, 1));
    stream.unknownLength = true;
    byte[] bytes = stream.toBytes();
    assertThat(FlacTestFiles.read(file(bytes))).isDeepEqualTo(stream.words);
    for (int length = HEADER_BYTES; length < bytes.length; length++) {
      byte[] cut = Arrays.copyOf(bytes, length);
      assertThatThrownBy(() -> FlacSideReader.open(file(cut)))
          .isInstanceOf(InputRejectedException.class);
    }
  }

  @Test
  void kindsThatAreNotTakenAreRefusedWithAReason() throws Exception {
    assertRefused(new CraftedStream(96_000, 8, Signals.tone(16, 1, 99, 1)), "8 bits a sample");
    assertRefused(new CraftedStream(96_000, 12, Signals.silence(1, 99)), "12 bits a sample");
    assertRefused(new CraftedStream(4_000, 16, Signals.silence(1, 99)), "rate of 4000 Hz");
    assertRefused(new CraftedStream(655_350, 16, Signals.silence(1, 99)), "rate of 655350 Hz");
    byte[] six = new CraftedStream(96_000, 16, Signals.silence(2, 99)).toBytes();
    six[8 + 12] |= 0x0a;
    assertThatThrownBy(() -> FlacSideReader.open(file(six)))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining("6 channels");
    for (String start : new String[] {"OggS and more", "RIFF and more", "fLa", "", "fLaC"}) {
      assertThatThrownBy(() -> FlacSideReader.open(file(start.getBytes(StandardCharsets.US_ASCII))))
          .isInstanceOf(InputRejectedException.class);
    }
  }

  private void assertRefused(CraftedStream stream, String why) throws IOException {
    Path file = file(stream.toBytes());
    assertThatThrownBy(() -> FlacSideReader.open(file))
        .isInstanceOf(InputRejectedException.class)
        .hasMessageContaining(why)
        .hasMessageContaining("convert a copy");
  }
}
