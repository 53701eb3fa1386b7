package org.groovemend.audio.file;

import static org.groovemend.audio.file.FileBuilder.comm;
import static org.groovemend.audio.file.FileBuilder.extensibleFmt;
import static org.groovemend.audio.file.FileBuilder.fmt;
import static org.groovemend.audio.file.FileBuilder.ssnd;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/**
 * Makes the small files of fixtures/audio: good ones, legal or off by a count, and bad ones with
 * one defect each. Run {@link #main} to write them again; {@code FixtureFilesTest} holds the
 * committed files to what is made here.
 */
final class FixtureFiles {

  /**
   * @param name path below fixtures/audio
   * @param expected for a good file its notices, one a line; for a bad one the message behind the
   *     path
   */
  record Fixture(String name, byte[] bytes, String expected) {

    boolean good() {
      return name.startsWith("good/");
    }
  }

  private static final AudioFormat CD = AudioFormat.pcm(44_100, 2, 16);
  private static final AudioFormat WIDE = AudioFormat.pcm(96_000, 2, 24);
  private static final AudioFormat FLOAT = AudioFormat.ieeeFloat(96_000, 2, 32);

  private final List<Fixture> fixtures = new ArrayList<>();

  private FixtureFiles() {}

  /** First argument: the folder fixtures/audio. */
  public static void main(String[] arguments) throws IOException {
    Path folder = Path.of(arguments[0]);
    for (Fixture fixture : all()) {
      Path path = folder.resolve(fixture.name());
      Files.createDirectories(path.getParent());
      Files.write(path, fixture.bytes());
      if (!fixture.good() || !fixture.expected().isEmpty()) {
        Files.writeString(expectation(path), fixture.expected() + "\n", StandardCharsets.UTF_8);
      }
    }
  }

  /** NNN-what.wav has its expected words in NNN-what.expect.txt. */
  static Path expectation(Path path) {
    String name = path.getFileName().toString();
    return path.resolveSibling(name.substring(0, name.lastIndexOf('.')) + ".expect.txt");
  }

  static List<Fixture> all() {
    FixtureFiles files = new FixtureFiles();
    files.addGoodWav();
    files.addGoodAiff();
    files.addBadWav();
    files.addBadAiff();
    files.addNotAudio();
    return files.fixtures;
  }

  private void good(String name, byte[] bytes, String... notices) {
    fixtures.add(new Fixture("good/" + name, bytes, String.join("\n", notices)));
  }

  private void bad(String name, byte[] bytes, String message) {
    fixtures.add(new Fixture("bad/" + name, bytes, message));
  }

  /** Twelve frames, the same for each format. */
  static long[][] words(AudioFormat format) {
    return AwkwardFiles.words(new Random(78), format, 12);
  }

  private static byte[] samples(AudioFormat format) {
    return FileBuilder.samples(words(format), format, false);
  }

  private static byte[] bigSamples(AudioFormat format) {
    return FileBuilder.samples(words(format), format, true);
  }

  private static byte[] text(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  private static FileBuilder wav(AudioFormat format) {
    return FileBuilder.wav().fmt(format);
  }

  private void addGoodWav() {
    AudioFormat in24 = new AudioFormat(96_000, 2, SampleCoding.PCM, 24, 20);
    AudioFormat in32 = new AudioFormat(96_000, 2, SampleCoding.PCM, 32, 24);
    AudioFormat mono24 = AudioFormat.pcm(48_000, 1, 24);
    good("001-plain-16.wav", wav(CD).chunk("data", samples(CD)).bytes());
    good("002-plain-24.wav", wav(WIDE).chunk("data", samples(WIDE)).bytes());
    good(
        "003-extensible-20-in-24.wav",
        FileBuilder.wav().chunk("fmt ", extensibleFmt(in24)).chunk("data", samples(in24)).bytes());
    good(
        "004-extensible-24-in-32.wav",
        FileBuilder.wav().chunk("fmt ", extensibleFmt(in32)).chunk("data", samples(in32)).bytes());
    good("005-float-32.wav", wav(FLOAT).chunk("data", samples(FLOAT)).bytes());
    good(
        "006-chunks-around-odd-sizes.wav",
        FileBuilder.wav()
            .chunk("JUNK", new byte[27])
            .chunk("abcd", text("odd"))
            .fmt(mono24)
            .chunk("data", Arrays.copyOf(samples(mono24), 33))
            .chunk("LIST", text("INFOICMT\4\0\0\0side"))
            .bytes());
    good(
        "007-format-behind-samples.wav",
        FileBuilder.wav().chunk("data", samples(CD)).fmt(CD).bytes());
    byte[] odd = Arrays.copyOf(samples(mono24), 33);
    good(
        "008-odd-sizes-without-padding.wav",
        FileBuilder.wav()
            .chunk("abcd", 3, text("odd"), false)
            .fmt(mono24)
            .chunk("data", 33, odd, false)
            .chunk("iXML", text("<side/>"))
            .bytes(),
        "The byte that pads chunk 'abcd' at byte 12 to an even size is missing.",
        "The byte that pads chunk 'data' at byte 47 to an even size is missing.");
    byte[] junkBehind =
        FileBuilder.part(false)
            .raw(wav(CD).chunk("data", samples(CD)).bytes())
            .hex("00 01 02 03 04")
            .content();
    good(
        "009-bytes-behind-the-end.wav",
        junkBehind,
        "The last 5 bytes, from byte 92 on, are no chunk; they are kept for the way back but not"
            + " carried into a copy.");
    good(
        "010-streaming-ffffffff.wav",
        wav(CD).wholeSize(0xffff_ffffL).chunk("data", 0xffff_ffffL, samples(CD), false).bytes(),
        "The length of the samples was never filled in; they are taken to run to the end of the"
            + " file.",
        "The size of the whole at byte 4 was never filled in, the chunks make 84.");
    good(
        "011-streaming-zero.wav",
        wav(CD).wholeSize(0).chunk("data", 0, samples(CD), false).bytes(),
        "The length of the samples was never filled in; they are taken to run to the end of the"
            + " file.",
        "The size of the whole at byte 4 was never filled in, the chunks make 84.");
    good(
        "012-whole-size-wrong.wav",
        wav(CD).wholeSize(60).chunk("data", samples(CD)).bytes(),
        "The size of the whole at byte 4 says 60, the chunks make 84.");
    good(
        "013-fact-count-wrong.wav",
        wav(FLOAT).chunk("fact", new byte[] {11, 0, 0, 0}).chunk("data", samples(FLOAT)).bytes(),
        "The fact chunk counts 11 frames, there are 12.");
    good(
        "014-part-of-a-frame-at-the-end.wav",
        wav(CD).chunk("data", Arrays.copyOf(samples(CD), 46)).bytes(),
        "The samples end with 2 bytes that make no whole frame; they are kept but not heard.");
    good(
        "015-more-samples-than-announced.wav",
        wav(CD).chunk("data", 40, samples(CD), true).number(0, 8).bytes(),
        "The last 16 bytes, from byte 84 on, are no chunk; they are kept for the way back but not"
            + " carried into a copy.",
        "The size of the whole at byte 4 says 92, the chunks make 76.");
    good(
        "016-byte-rate-wrong.wav",
        FileBuilder.wav()
            .chunk("fmt ", fmt(1, 2, 44_100, 1, 4, 16))
            .chunk("data", samples(CD))
            .bytes(),
        "The fmt chunk gives 1 bytes a second, it is 176400.");
    good(
        "017-block-align-wrong.wav",
        FileBuilder.wav()
            .chunk("fmt ", fmt(1, 2, 44_100, 176_400, 2, 16))
            .chunk("data", samples(CD))
            .bytes(),
        "The fmt chunk gives block align 2, it is 4.");
    good(
        "018-format-twice-the-same.wav",
        wav(CD).fmt(CD).chunk("data", samples(CD)).bytes(),
        "The fmt chunk stands twice, both times the same.");
    good(
        "019-rf64.wav",
        FileBuilder.large("RF64")
            .chunk("ds64", FileBuilder.ds64(152 - 8, 72, 12))
            .fmt(WIDE)
            .chunk("data", 0xffff_ffffL, samples(WIDE), true)
            .bytes());
    good(
        "020-bw64-third-number-ignored.wav",
        FileBuilder.large("BW64")
            .chunk("ds64", FileBuilder.ds64(152 - 8, 72, 7))
            .fmt(WIDE)
            .chunk("data", 0xffff_ffffL, samples(WIDE), true)
            .bytes());
    good(
        "021-rf64-count-wrong.wav",
        FileBuilder.large("RF64")
            .chunk("ds64", FileBuilder.ds64(152 - 8, 72, 7))
            .fmt(WIDE)
            .chunk("data", 0xffff_ffffL, samples(WIDE), true)
            .bytes(),
        "The ds64 chunk counts 7 frames, there are 12.");
    good(
        "022-rf64-never-filled-in.wav",
        FileBuilder.large("RF64")
            .chunk("ds64", FileBuilder.ds64(0, 0, 0))
            .fmt(WIDE)
            .chunk("data", 0xffff_ffffL, samples(WIDE), true)
            .bytes(),
        "The length of the samples in ds64 was never filled in; they are taken to run to the end of"
            + " the file.",
        "The size of the whole at byte 20 was never filled in, the chunks make 144.");
    good("023-one-frame.wav", wav(CD).chunk("data", Arrays.copyOf(samples(CD), 4)).bytes());
    good(
        "024-valid-bits-zero.wav",
        FileBuilder.wav()
            .chunk("fmt ", validBits(extensibleFmt(WIDE), 0))
            .chunk("data", samples(WIDE))
            .bytes(),
        "The fmt chunk gives 0 valid bits, all 24 bits are taken.");
  }

  private static byte[] validBits(byte[] fmt, int bits) {
    fmt[18] = (byte) bits;
    return fmt;
  }

  private static FileBuilder aiff(AudioFormat format, long frames, String coding) {
    return FileBuilder.aiff(coding != null).chunk("COMM", comm(format, frames, coding));
  }

  private void addGoodAiff() {
    byte[] none = {};
    good(
        "101-aiff-24.aiff",
        aiff(WIDE, 12, null).chunk("SSND", ssnd(0, 0, none, bigSamples(WIDE))).bytes());
    good(
        "102-aiff-c-sowt.aifc",
        aiff(CD, 12, "sowt").chunk("SSND", ssnd(0, 0, none, samples(CD))).bytes());
    good(
        "103-aiff-c-float.aifc",
        aiff(FLOAT, 12, "fl32").chunk("SSND", ssnd(0, 0, none, bigSamples(FLOAT))).bytes());
    good(
        "104-samples-first-with-offset.aiff",
        FileBuilder.aiff(false)
            .chunk("SSND", ssnd(6, 0, new byte[6], bigSamples(CD)))
            .chunk("NAME", text("side"))
            .chunk("COMM", comm(CD, 12, null))
            .bytes());
    good(
        "105-last-block-filled-up.aiff",
        aiff(CD, 11, null).chunk("SSND", ssnd(0, 16, none, bigSamples(CD))).bytes());
    good(
        "106-count-wrong.aiff",
        aiff(CD, 400, null).chunk("SSND", ssnd(0, 0, none, bigSamples(CD))).bytes(),
        "The COMM chunk counts 400 frames, there are 12.");
    good(
        "107-streaming.aiff",
        aiff(CD, 0, null)
            .wholeSize(0)
            .chunk("SSND", 0, ssnd(0, 0, none, bigSamples(CD)), false)
            .bytes(),
        "The length of the samples was never filled in; they are taken to run to the end of the"
            + " file.",
        "The size of the whole at byte 4 was never filled in, the chunks make 94.");
  }

  private void addBadWav() {
    byte[] cd = samples(CD);
    String again = "; copy the file again or export the transfer again.";
    String export = "; export the transfer again.";
    String pcm = "; export the transfer as uncompressed PCM or float.";
    bad(
        "001-truncated.wav",
        Arrays.copyOf(wav(CD).chunk("data", cd).bytes(), 80),
        "in chunk 'data' at byte 36: the header announces 48 bytes of samples and the file ends"
            + " after 36; copy the file again from where it came, or, if the capture itself ended"
            + " early, set the size at byte 40 to 36 in a copy.");
    bad(
        "002-no-samples.wav",
        wav(CD).chunk("data", new byte[0]).bytes(),
        "in chunk 'data' at byte 36: it holds no samples; make the transfer again or give the file"
            + " that holds the sound.");
    bad(
        "003-no-whole-frame.wav",
        wav(CD).chunk("data", new byte[3]).bytes(),
        "in chunk 'data' at byte 36: it holds no whole frame; make the transfer again or give the"
            + " file that holds the sound.");
    bad(
        "004-no-format.wav",
        FileBuilder.wav().chunk("data", cd).bytes(),
        "at byte 68: there is no 'fmt ' chunk before the end" + again);
    bad(
        "005-no-data.wav",
        wav(CD).chunk("LIST", text("INFO")).bytes(),
        "at byte 48: there is no 'data' chunk before the end" + again);
    bad(
        "006-second-data.wav",
        wav(CD).chunk("data", cd).chunk("data", cd).bytes(),
        "in chunk 'data' at byte 92: a second 'data' chunk, the first is at byte 36; export the"
            + " transfer again as one run of samples.");
    bad(
        "007-second-format-differs.wav",
        wav(CD).fmt(WIDE).chunk("data", cd).bytes(),
        "in chunk 'fmt ' at byte 36: a second 'fmt ' chunk differs from the first" + export);
    bad(
        "008-chunk-reaches-outside.wav",
        FileBuilder.wav()
            .chunk("LIST", 5_000, text("INFO"), true)
            .fmt(CD)
            .chunk("data", cd)
            .bytes(),
        "in chunk 'LIST' at byte 12: it claims 5000 bytes and 84 are left in the file" + again);
    bad(
        "009-garbage-for-a-chunk.wav",
        wav(CD).hex("0001 0203 0405 0607").chunk("data", cd).bytes(),
        "at byte 36: a chunk should begin here but there are the bytes 00 01 02 03" + again);
    bad(
        "026-stub-for-a-chunk.wav",
        wav(CD).hex("0001 02").bytes(),
        "at byte 36: a chunk should begin here but there are only 3 bytes left" + again);
    badFormat(
        "010-no-channels.wav",
        fmt(1, 0, 44_100, 0, 16),
        "it announces no channels; export the transfer as mono or stereo.");
    badFormat(
        "011-six-channels.wav",
        fmt(1, 6, 48_000, 18, 24),
        "it announces 6 channels and a side has one or two; export the two channels of the groove"
            + " as a stereo file.");
    badFormat(
        "012-eight-bits.wav",
        fmt(1, 2, 44_100, 2, 8),
        "samples of 8 bits are not taken; transfer the side again at 24 bits, or export it with 16,"
            + " 24 or 32.");
    badFormat(
        "013-sixty-four-bit-integers.wav",
        fmt(1, 2, 44_100, 16, 64),
        "samples of 64 bits are not taken; transfer the side again at 24 bits, or export it with"
            + " 16, 24 or 32.");
    badFormat(
        "014-sixteen-bit-float.wav",
        fmt(3, 2, 44_100, 4, 16),
        "floating-point samples of 16 bits are not taken; export the transfer as 32-bit float or"
            + " 24-bit PCM.");
    badFormat("015-a-law.wav", fmt(6, 2, 8_000, 2, 8), "the samples are coded as a-law" + pcm);
    badFormat(
        "016-unknown-coding.wav",
        fmt(0x7777, 2, 44_100, 4, 16),
        "the samples are coded as format tag 30583, which is unknown" + pcm);
    badFormat(
        "017-rate-too-low.wav",
        fmt(1, 2, 4_000, 4, 16),
        "the sample rate 4000 is not between 8000 and 384000 Hz; export the transfer at the rate it was"
            + " made at.");
    badFormat(
        "018-widths-contradict.wav",
        fmt(1, 2, 96_000, 8, 24),
        "24 bits, block align 8 and byte rate 768000 contradict each other for 2 channels at 96000"
            + " Hz"
            + export);
    badFormat(
        "019-format-too-short.wav",
        Arrays.copyOf(fmt(1, 2, 44_100, 4, 16), 14),
        "it holds 14 bytes and needs at least 16" + again);
    badFormat(
        "020-extension-missing.wav",
        fmt(0xfffe, 2, 44_100, 4, 16),
        "an extensible format needs 40 bytes and it holds 16" + again);
    byte[] guid = extensibleFmt(WIDE);
    guid[39] = 0;
    badFormat(
        "021-unknown-guid.wav",
        guid,
        "its format GUID 010000000000100080" + "0000aa00389b00 is unknown" + pcm);
    badFormat(
        "022-more-valid-bits-than-bits.wav",
        validBits(extensibleFmt(WIDE), 25),
        "it gives 25 valid bits in a word of 24" + export);
    long[][] words = words(FLOAT);
    words[1][7] = Float.floatToRawIntBits(Float.NaN);
    words[0][9] = Float.floatToRawIntBits(Float.NEGATIVE_INFINITY);
    bad(
        "023-not-a-number.wav",
        wav(FLOAT).chunk("data", FileBuilder.samples(words, FLOAT, false)).bytes(),
        "at frame 7, channel 1: the sample is not a finite number; export the transfer again as PCM,"
            + " or without the processing that made it so.");
    bad(
        "024-rf64-without-ds64.wav",
        FileBuilder.large("RF64").fmt(CD).chunk("data", cd).bytes(),
        "at byte 12: the 'ds64' chunk that gives an RF64 file its sizes is not there" + again);
    bad(
        "025-rf64-truncated.wav",
        FileBuilder.large("RF64")
            .chunk("ds64", FileBuilder.ds64(10_000_000_144L, 10_000_000_000L, 2_500_000_000L))
            .fmt(CD)
            .chunk("data", 0xffff_ffffL, cd, true)
            .bytes(),
        "in chunk 'data' at byte 72: the header announces 10000000000 bytes of samples and the file"
            + " ends after 48; copy the file again from where it came, or, if the capture itself"
            + " ended early, set the size at byte 28 to 48 in a copy.");
  }

  private void badFormat(String name, byte[] fmt, String message) {
    bad(
        name,
        FileBuilder.wav().chunk("fmt ", fmt).chunk("data", samples(CD)).bytes(),
        "in chunk 'fmt ' at byte 12: " + message);
  }

  private void addBadAiff() {
    byte[] none = {};
    byte[] sound = ssnd(0, 0, none, bigSamples(CD));
    String again = "; copy the file again or export the transfer again.";
    bad(
        "101-truncated.aiff",
        Arrays.copyOf(aiff(CD, 12, null).chunk("SSND", sound).bytes(), 90),
        "in chunk 'SSND' at byte 38: the header announces 56 bytes of samples and the file ends"
            + " after 44; copy the file again from where it came, or, if the capture itself ended"
            + " early, set the size at byte 42 to 44 in a copy.");
    bad(
        "102-no-common.aiff",
        FileBuilder.aiff(false).chunk("SSND", sound).bytes(),
        "at byte 76: there is no 'COMM' chunk before the end" + again);
    bad(
        "103-no-sound.aiff",
        aiff(CD, 0, null).bytes(),
        "at byte 38: there is no 'SSND' chunk before the end" + again);
    bad(
        "104-mu-law.aifc",
        aiff(CD, 12, "ulaw").chunk("SSND", sound).bytes(),
        "in chunk 'COMM' at byte 12: the samples are coded as mu-law; export the transfer as"
            + " uncompressed PCM or float.");
    byte[] half = comm(CD, 12, null);
    half[17] = 1;
    bad(
        "105-rate-not-whole.aiff",
        FileBuilder.aiff(false).chunk("COMM", half).chunk("SSND", sound).bytes(),
        "in chunk 'COMM' at byte 12: the sample rate is not a whole number of Hz; export the"
            + " transfer at the rate it was made at.");
    bad(
        "106-samples-begin-outside.aiff",
        aiff(CD, 12, null).chunk("SSND", ssnd(1_000, 0, none, bigSamples(CD))).bytes(),
        "in chunk 'SSND' at byte 38: the samples should begin after 1000 bytes, which lies outside"
            + " the chunk"
            + again);
    bad(
        "107-no-samples.aiff",
        aiff(CD, 0, null).chunk("SSND", ssnd(0, 0, none, none)).bytes(),
        "in chunk 'SSND' at byte 38: it holds no samples; make the transfer again or give the file"
            + " that holds the sound.");
  }

  private void addNotAudio() {
    String export = "; export the transfer as WAV, AIFF or FLAC and give that file.";
    bad(
        "201-empty.wav",
        new byte[0],
        "at byte 0: the file is empty; copy or export the transfer again.");
    bad(
        "202-text.wav",
        text("Side A, matrix 4711, second take\n"),
        "at byte 0: this is no kind of audio file that is known" + export);
    bad(
        "203-big-endian-rifx.wav",
        FileBuilder.part(false).ascii("RIFX").number(0, 4).ascii("WAVE").content(),
        "at byte 0: it is a big-endian RIFX file, which is not read" + export);
    bad(
        "204-ogg.wav",
        FileBuilder.part(false).ascii("OggS").number(0, 20).content(),
        "at byte 0: it is an Ogg file, which is not read; give the uncompressed transfer, a lossy"
            + " copy has lost what restoration works on.");
    bad(
        "205-mp3-behind-a-tag.wav",
        FileBuilder.part(false).ascii("ID3").hex("0400 00 00000004 00000000 fffb9064").content(),
        "at byte 0: it is an MP3 file, which is not read; give the uncompressed transfer, a lossy"
            + " copy has lost what restoration works on.");
    bad(
        "206-riff-of-another-kind.wav",
        FileBuilder.part(false).ascii("RIFF").number(4, 4).ascii("AVI ").content(),
        "at byte 8: this is RIFF of another kind than WAVE" + export);
  }
}
