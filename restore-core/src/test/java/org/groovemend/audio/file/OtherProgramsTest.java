package org.groovemend.audio.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WavChunk;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Files written by sox and ffmpeg read here, and files written here read by sox, ffmpeg and
 * libsndfile, sample by sample.
 */
class OtherProgramsTest {

  @TempDir Path folder;

  private static void run(Path output, String... command) throws Exception {
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.redirectError(ProcessBuilder.Redirect.DISCARD);
    if (output != null) {
      builder.redirectOutput(output.toFile());
    }
    Process process;
    try {
      process = builder.start();
    } catch (IOException e) {
      Assumptions.abort(command[0] + " is not installed: this check against it did not run");
      return;
    }
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).as("%s ended", command[0]).isTrue();
    assertThat(process.exitValue()).as(String.join(" ", command)).isZero();
  }

  private Path path(String name) {
    return folder.resolve(name);
  }

  /** Noise as raw samples of a format, little-endian. */
  private byte[] raw(AudioFormat format) throws IOException {
    byte[] samples =
        FileBuilder.samples(AwkwardFiles.words(new Random(9), format, 2_001), format, false);
    Files.write(path("in.raw"), samples);
    return samples;
  }

  private static String ffmpegCode(AudioFormat format) {
    return (format.coding() == SampleCoding.PCM ? "s" : "f") + format.containerBits();
  }

  private static AudioFormat format(String coding, int rate, int channels, int bits) {
    return coding.equals("float")
        ? AudioFormat.ieeeFloat(rate, channels, bits)
        : AudioFormat.pcm(rate, channels, bits);
  }

  private void checkRead(Path path, AudioFormat format, byte[] samples) throws IOException {
    try (SideReader side = SideFiles.open(path)) {
      assertThat(side.format()).isEqualTo(format);
      assertThat(FileBuilder.samples(Sides.read(side), format, false)).isEqualTo(samples);
      assertThat(Sides.rebuild(side)).isEqualTo(Files.readAllBytes(path));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "wav,signed,44100,2,16", "wav,signed,96000,2,24", "wav,signed,192000,1,32",
    "wav,float,48000,2,32", "wav,float,48000,1,64", "aiff,signed,44100,2,16",
    "aiff,signed,96000,1,24", "aiff,signed,88200,2,32", "aifc,signed,96000,2,24",
    "aifc,float,96000,2,32", "aifc,float,96000,2,64",
  })
  void whatSoxWritesIsRead(String type, String coding, int rate, int channels, int bits)
      throws Exception {
    AudioFormat format = format(coding, rate, channels, bits);
    byte[] samples = raw(format);
    String e = coding.equals("float") ? "floating-point" : "signed-integer";
    Path out = path("out." + type);
    run(
        null,
        "sox",
        "-D",
        "-t",
        "raw",
        "-r",
        "" + rate,
        "-e",
        e,
        "-b",
        "" + bits,
        "-c",
        "" + channels,
        "-L",
        path("in.raw").toString(),
        "-t",
        type,
        out.toString());
    // what sox holds is 32 bits: compare with its own decoding, which for PCM is what went in
    Path back = path("back.raw");
    run(back, "sox", "-D", out.toString(), "-t", "raw", "-e", e, "-b", "" + bits, "-L", "-");
    byte[] decoded = Files.readAllBytes(back);
    if (!coding.equals("float")) {
      assertThat(decoded).isEqualTo(samples);
    }
    checkRead(out, format, decoded);
  }

  @ParameterizedTest
  @CsvSource({
    "wav,signed,44100,2,16,pcm_s16le,",
    "wav,signed,96000,2,24,pcm_s24le,",
    "wav,signed,8000,1,32,pcm_s32le,",
    "wav,float,48000,2,32,pcm_f32le,",
    "wav,float,384000,2,64,pcm_f64le,",
    "wav,signed,96000,2,24,pcm_s24le,-rf64 always",
    "wav,signed,48000,2,16,pcm_s16le,-write_bext 1 -metadata description=side",
    "aiff,signed,44100,2,16,pcm_s16be,",
    "aiff,signed,96000,2,24,pcm_s24be,",
    "aiff,signed,96000,1,32,pcm_s32be,",
    "aiff,signed,48000,2,16,pcm_s16le,",
    "aiff,float,48000,2,32,pcm_f32be,",
    "aiff,float,48000,1,64,pcm_f64be,",
  })
  void whatFfmpegWritesIsRead(
      String type, String coding, int rate, int channels, int bits, String codec, String more)
      throws Exception {
    AudioFormat format = format(coding, rate, channels, bits);
    byte[] samples = raw(format);
    Path out = path("out." + type);
    List<String> command =
        new ArrayList<>(
            List.of(
                "ffmpeg",
                "-v",
                "error",
                "-y",
                "-f",
                ffmpegCode(format) + "le",
                "-ar",
                "" + rate,
                "-ac",
                "" + channels,
                "-i",
                path("in.raw").toString(),
                "-c:a",
                codec));
    if (more != null) {
      command.addAll(Arrays.asList(more.split(" ")));
    }
    command.add(out.toString());
    run(null, command.toArray(String[]::new));
    checkRead(out, format, samples);
    try (SideReader side = SideFiles.open(out)) {
      assertThat(side.notices()).isEmpty();
    }
  }

  @ParameterizedTest
  @CsvSource({"ffmpeg,wav", "ffmpeg,aiff", "sox,wav", "sox,aiff"})
  void headersWrittenToAPipeAreReadToTheEndOfTheFile(String program, String type) throws Exception {
    AudioFormat format = AudioFormat.pcm(48_000, 2, type.equals("aiff") ? 16 : 24);
    byte[] samples = raw(format);
    int bits = format.containerBits();
    Path out = path("piped." + type);
    if (program.equals("ffmpeg")) {
      String codec = type.equals("wav") ? "pcm_s24le" : "pcm_s16be";
      String in = path("in.raw").toString();
      run(
          null,
          "sh",
          "-c",
          "ffmpeg -v error -f s"
              + bits
              + "le -ar 48000 -ac 2 -i '"
              + in
              + "' -c:a "
              + codec
              + " -f "
              + type
              + " - | cat > '"
              + out
              + "'");
    } else {
      String in = path("in.raw").toString();
      run(
          null,
          "sh",
          "-c",
          "cat '"
              + in
              + "' | sox -D -t raw -r 48000 -e signed -b "
              + bits
              + " -c 2 -L - -t "
              + type
              + " - | cat > '"
              + out
              + "'");
    }
    Assumptions.assumeTrue(Files.size(out) > 0, program + " is not installed");
    checkRead(out, format, samples);
    try (SideReader side = SideFiles.open(out)) {
      assertThat(side.notices().get(0)).contains("never filled in");
    }
  }

  @Test
  void ffmpegsBroadcastExtensionIsUnderstood() throws Exception {
    raw(AudioFormat.pcm(48_000, 2, 16));
    Path out = path("bext.wav");
    run(
        null,
        "ffmpeg",
        "-v",
        "error",
        "-y",
        "-f",
        "s16le",
        "-ar",
        "48000",
        "-ac",
        "2",
        "-i",
        path("in.raw").toString(),
        "-write_bext",
        "1",
        "-metadata",
        "description=side two",
        "-metadata",
        "originator=someone",
        "-metadata",
        "origination_date=2031-02-03",
        "-metadata",
        "origination_time=04:05:06",
        "-metadata",
        "time_reference=6000000000",
        "-metadata",
        "coding_history=A=ANALOGUE",
        out.toString());
    try (SideReader side = SideFiles.open(out)) {
      WavChunk chunk =
          side.wavChunks().stream().filter(c -> c.id().equals("bext")).findFirst().orElseThrow();
      byte[] file = Files.readAllBytes(out);
      int from = (int) chunk.fileOffset();
      BroadcastExtension bext =
          BroadcastExtension.parse(Arrays.copyOfRange(file, from, from + (int) chunk.size()));
      assertThat(bext.description()).isEqualTo("side two");
      assertThat(bext.originator()).isEqualTo("someone");
      assertThat(bext.originationDate()).isEqualTo("2031-02-03");
      assertThat(bext.originationTime()).isEqualTo("04:05:06");
      assertThat(bext.timeReference()).isEqualTo(6_000_000_000L);
      assertThat(bext.version()).isEqualTo(1);
      assertThat(bext.codingHistory()).startsWith("A=ANALOGUE");
    }
  }

  @ParameterizedTest
  @CsvSource({
    "signed,44100,2,16,RIFF", "signed,96000,2,24,RIFF", "signed,48000,1,24,RIFF",
    "signed,96000,2,32,RIFF", "float,96000,2,32,RIFF", "float,96000,1,64,RIFF",
    "signed,96000,2,24,RF64", "float,48000,1,32,RF64",
  })
  void whatIsWrittenHereIsReadByOthers(String coding, int rate, int channels, int bits, String kind)
      throws Exception {
    AudioFormat format = format(coding, rate, channels, bits);
    long[][] words = AwkwardFiles.words(new Random(10), format, 1_777);
    byte[] samples = FileBuilder.samples(words, format, false);
    Path out = path("ours.wav");
    byte[] bext =
        BroadcastExtension.withHistoryLine(
            null,
            CodingHistory.line(format, "test"),
            new BroadcastExtension.Origin("test", null, null));
    List<WavChunk> chunks =
        List.of(WavChunk.of("bext", bext), WavChunk.samples(), WavChunk.of("abcd", new byte[3]));
    SideReader original = kind.equals("RF64") ? smallRf64(format) : null;
    try (WavWriter writer = WavWriter.create(out, format, 1_777, chunks, original)) {
      writer.write(words, 0, 1_777);
    } finally {
      if (original != null) {
        original.close();
      }
    }
    Path back = path("back.raw");
    String code = ffmpegCode(format) + "le";
    run(
        back,
        "ffmpeg",
        "-v",
        "error",
        "-i",
        out.toString(),
        "-f",
        code,
        "-c:a",
        "pcm_" + code,
        "-");
    assertThat(Files.readAllBytes(back)).as("ffmpeg").isEqualTo(samples);
    if (kind.equals("RIFF") && format.coding() == SampleCoding.PCM) { // sox reads no RF64
      run(
          back,
          "sox",
          "-D",
          out.toString(),
          "-t",
          "raw",
          "-e",
          "signed",
          "-b",
          "" + bits,
          "-L",
          "-");
      assertThat(Files.readAllBytes(back)).as("sox").isEqualTo(samples);
    }
    String type = bits == 64 ? "float64" : coding.equals("float") ? "float32" : "int32";
    Files.writeString(
        path("read.py"),
        "import sys, soundfile\n"
            + "x, r = soundfile.read(sys.argv[1], dtype='"
            + type
            + "', always_2d=True)\n"
            + "assert r == "
            + rate
            + "\n"
            + "sys.stdout.buffer.write(x.tobytes())\n");
    run(
        back,
        "/usr/bin/env",
        "sh",
        "-c",
        "/usr/bin/python3 -c 'import soundfile' 2>/dev/null || exit 0; /usr/bin/python3 '"
            + path("read.py")
            + "' '"
            + out
            + "'");
    Assumptions.assumeTrue(Files.size(back) > 0, "python3 soundfile is not installed");
    assertThat(Files.readAllBytes(back)).as("libsndfile").isEqualTo(leftJustified(words, format));
  }

  private SideReader smallRf64(AudioFormat format) throws IOException {
    byte[] file =
        FileBuilder.large("RF64")
            .chunk("ds64", FileBuilder.ds64(0, 0, 0))
            .fmt(format)
            .chunk("data", 0xffff_ffffL, new byte[format.bytesPerFrame()], true)
            .bytes();
    return Sides.open(folder, file);
  }

  /** libsndfile gives integers of any width at the high end of 32 bits. */
  private static byte[] leftJustified(long[][] words, AudioFormat format) {
    if (format.coding() == SampleCoding.FLOAT) {
      return FileBuilder.samples(words, format, false);
    }
    long[][] shifted = new long[words.length][];
    for (int c = 0; c < words.length; c++) {
      shifted[c] = Arrays.stream(words[c]).map(w -> w << 32 - format.containerBits()).toArray();
    }
    return FileBuilder.samples(shifted, AudioFormat.pcm(48_000, words.length, 32), false);
  }
}
