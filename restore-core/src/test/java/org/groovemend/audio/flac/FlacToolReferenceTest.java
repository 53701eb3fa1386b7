package org.groovemend.audio.flac;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Reference: the program flac of Debian (1.4.2). */
class FlacToolReferenceTest {

  /** A side as the reference program is given it; {@code options} as one string. */
  record Case(String name, String options, int rate, int bits, long[][] words) {
    @Override
    public String toString() {
      return name + " " + bits + " bits, " + rate + " Hz, " + words.length + " ch " + options;
    }

    int channels() {
      return words.length;
    }

    /** The words as we give them: 17 to 23 bits at the top of 24. */
    long[][] expected() {
      int shift = format().containerBits() - bits;
      long[][] out = new long[words.length][words[0].length];
      for (int c = 0; c < words.length; c++) {
        for (int i = 0; i < words[c].length; i++) {
          out[c][i] = words[c][i] << shift;
        }
      }
      return out;
    }

    AudioFormat format() {
      int container = bits == 16 ? 16 : bits <= 24 ? 24 : 32;
      return new AudioFormat(rate, channels(), SampleCoding.PCM, container, bits);
    }
  }

  @TempDir Path folder;

  @BeforeEach
  void needsTheProgram() {
    Tool.FLAC.assumeInstalled();
  }

  static List<Case> cases() {
    List<Case> cases = new ArrayList<>();
    for (int level = 0; level <= 8; level++) {
      cases.add(new Case("tone", "-" + level, 44_100, 16, Signals.tone(16, 2, 20_000, level)));
      cases.add(new Case("tone", "-" + level, 96_000, 24, Signals.tone(24, 2, 20_000, level)));
    }
    long[][] tone = Signals.tone(24, 2, 30_011, 3);
    cases.add(new Case("tone", "--lax -l 32 -b 4608 -q 15", 192_000, 24, tone));
    cases.add(new Case("tone", "--lax -l 32 -r 15 -b 32768", 192_000, 24, tone));
    cases.add(new Case("tone", "--lax -l 20 -b 999", 96_000, 24, tone));
    cases.add(new Case("tone", "-b 16 -l 4", 8_000, 24, Signals.tone(24, 2, 700, 3)));
    cases.add(new Case("tone", "--lax -b 65535", 384_000, 24, Signals.tone(24, 2, 70_000, 3)));
    cases.add(new Case("tone", "-l 0 -m", 100_001, 16, Signals.tone(16, 2, 9_000, 3)));
    cases.add(new Case("tone mono", "-8", 48_000, 24, Signals.tone(24, 1, 9_000, 4)));
    cases.add(new Case("tone mono", "-8 -p", 22_050, 16, Signals.tone(16, 1, 9_000, 4)));
    cases.add(new Case("tone 20 bits", "-8", 96_000, 20, Signals.tone(20, 2, 9_000, 4)));
    cases.add(new Case("tone 17 bits", "-5", 96_000, 17, Signals.tone(17, 2, 9_000, 4)));
    cases.add(new Case("bursts", "-8", 96_000, 24, Signals.bursts(24, 2, 40_000, 6)));
    cases.add(new Case("wasted", "-8", 96_000, 24, Signals.wasted(24, 2, 9_000, 8)));
    for (int bits : new int[] {16, 24, 32}) {
      cases.add(new Case("one", "-8", 44_100, bits, Signals.noise(bits, 2, 1, 7)));
      cases.add(new Case("seventeen", "-8", 44_100, bits, Signals.noise(bits, 1, 17, 7)));
      cases.add(new Case("silence", "-8", 88_200, bits, Signals.silence(2, 10_000)));
      cases.add(new Case("square", "-8", 44_100, bits, Signals.square(bits, 2, 10_000)));
      cases.add(new Case("square", "-2", 44_100, bits, Signals.square(bits, 2, 10_000)));
      cases.add(new Case("noise", "-8", 44_100, bits, Signals.noise(bits, 2, 10_000, 9)));
    }
    cases.add(new Case("tone 32 bits", "-8", 96_000, 32, Signals.tone(32, 2, 10_000, 4)));
    cases.add(new Case("tone 32 bits", "-0", 96_000, 32, Signals.tone(32, 2, 10_000, 4)));
    cases.add(new Case("tone 32 bits", "-2 -l 0", 96_000, 32, Signals.tone(32, 2, 10_000, 4)));
    cases.add(new Case("wasted 32 bits", "-8", 96_000, 32, Signals.wasted(32, 2, 10_000, 9)));
    cases.add(new Case("tone 28 bits", "-8", 96_000, 28, Signals.tone(28, 2, 100, 4)));
    return cases;
  }

  @ParameterizedTest
  @MethodSource("cases")
  void readsWhatTheProgramWroteAndGivesItBackFromTheRecipe(Case c) throws Exception {
    Path file = folder.resolve("side.flac");
    Files.write(folder.resolve("in.wav"), extensibleWav(c));
    List<Object> arguments = new ArrayList<>(List.of("-s", "--lax"));
    arguments.addAll(List.of(c.options().split(" ")));
    arguments.addAll(List.of("-o", file, "in.wav"));
    Tool.FLAC.run(folder, arguments.toArray());

    try (FlacSideReader side = FlacSideReader.open(file)) {
      assertThat(side.format()).isEqualTo(c.format());
      assertThat(FlacTestFiles.read(side)).isDeepEqualTo(c.expected());
      assertThat(side.notices()).isEmpty();
      assertThat(side.parts()).contains("STREAMINFO 34 bytes");
    }
    FlacTestFiles.assertComesBack(file, c.format(), c.expected());
  }

  /** A WAV file of the kind WAVE_FORMAT_EXTENSIBLE, which can say that 20 bits of 24 are used. */
  private static byte[] extensibleWav(Case c) {
    int container = c.format().containerBits();
    byte[] data = FlacTestFiles.raw(c.expected(), container);
    ByteBuffer wav = ByteBuffer.allocate(68 + data.length).order(ByteOrder.LITTLE_ENDIAN);
    int block = c.format().bytesPerFrame();
    wav.put(ascii("RIFF")).putInt(60 + data.length).put(ascii("WAVEfmt ")).putInt(40);
    wav.putShort((short) 0xfffe).putShort((short) c.channels()).putInt(c.rate());
    wav.putInt(c.rate() * block).putShort((short) block).putShort((short) container);
    wav.putShort((short) 22).putShort((short) c.bits()).putInt(c.channels() == 2 ? 3 : 4);
    wav.put(HexFormat.of().parseHex("0100000000001000800000aa00389b71"));
    wav.put(ascii("data")).putInt(data.length).put(data);
    return wav.array();
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  static Stream<Case> encodedByUs() {
    return cases().stream()
        .filter(c -> c.bits() % 8 == 0 && (c.options().equals("-8") || c.options().contains("-b")));
  }

  @ParameterizedTest
  @MethodSource("encodedByUs")
  void writesWhatTheProgramFindsSoundAndDecodesAlike(Case c) throws Exception {
    Path file = folder.resolve("ours.flac");
    FlacTestFiles.write(file, c.format(), c.words());

    Tool.FLAC.run(folder, "-t", "--warnings-as-errors", file);
    Tool.FLAC.run(
        folder,
        "-d",
        "-s",
        "--force-raw-format",
        "--endian=little",
        "--sign=signed",
        "-o",
        "out.raw",
        file);
    assertThat(Files.readAllBytes(folder.resolve("out.raw")))
        .isEqualTo(FlacTestFiles.raw(c.words(), c.bits()));
    FlacTestFiles.assertComesBack(file, c.format(), c.words());
  }

  /** The negative twin: the reference program does find damage in what we wrote. */
  @Test
  void programRefusesOurFileWithAFlippedBit() throws Exception {
    Path file = folder.resolve("ours.flac");
    FlacTestFiles.write(file, AudioFormat.pcm(96_000, 2, 24), Signals.tone(24, 2, 9_000, 1));
    byte[] bytes = Files.readAllBytes(file);
    bytes[bytes.length - 500] ^= 4;
    Files.write(file, bytes);

    assertThat(Tool.FLAC.exitCode(folder, "-t", file)).isNotZero();
  }

  @Test
  void seekTableOfOurFileLetsTheProgramSeekToTheSample() throws Exception {
    long[][] words = Signals.bursts(16, 1, 8_000 * 35, 2);
    Path file = folder.resolve("ours.flac");
    FlacTestFiles.write(file, AudioFormat.pcm(8_000, 1, 16), words);

    Tool.FLAC.run(
        folder,
        "-d",
        "-s",
        "--skip=200001",
        "--until=210001",
        "--force-raw-format",
        "--endian=little",
        "--sign=signed",
        "-o",
        "out.raw",
        file);
    long[][] part = {Arrays.copyOfRange(words[0], 200_001, 210_001)};
    assertThat(Files.readAllBytes(folder.resolve("out.raw")))
        .isEqualTo(FlacTestFiles.raw(part, 16));
    try (FlacSideReader side = FlacSideReader.open(file)) {
      // 35 s: points at 0, 10, 20 and 30 s
      assertThat(side.parts())
          .containsExactly("STREAMINFO 34 bytes", "SEEKTABLE 72 bytes", "VORBIS_COMMENT 18 bytes");
    }
  }

  /** What the program writes to a pipe has neither length nor MD5. */
  @Test
  void countsTheSamplesOfAStreamThatDoesNotSayHowManyItHas() throws Exception {
    long[][] words = Signals.tone(24, 2, 30_000, 5);
    Files.write(folder.resolve("in.raw"), FlacTestFiles.raw(words, 24));
    Process process =
        new ProcessBuilder(
                "sh",
                "-c",
                "cat in.raw | flac -s --force-raw-format --endian=little --sign=signed"
                    + " --channels=2 --bps=24 --sample-rate=96000 -c - | cat > piped.flac")
            .directory(folder.toFile())
            .start();
    assertThat(process.waitFor()).isZero();

    try (FlacSideReader side = FlacSideReader.open(folder.resolve("piped.flac"))) {
      assertThat(side.frames()).isEqualTo(30_000);
      assertThat(FlacTestFiles.read(side)).isDeepEqualTo(words);
      assertThat(side.notices()).hasSize(2);
      assertThat(side.notices().get(0)).contains("were counted");
      assertThat(side.notices().get(1)).contains("no MD5");
    }
    AudioFormat format = AudioFormat.pcm(96_000, 2, 24);
    FlacTestFiles.assertComesBack(folder.resolve("piped.flac"), format, words);
  }
}
