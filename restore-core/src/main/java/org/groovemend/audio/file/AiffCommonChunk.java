package org.groovemend.audio.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SampleCoding;

/**
 * The content of an AIFF {@code COMM} chunk: channels i16, frames u32, bits i16, rate as an 80-bit
 * number, all big-endian; in AIFF-C also the coding's four characters and its name. Bits that do
 * not fill whole bytes stand at the high end of the word.
 */
record AiffCommonChunk(
    AudioFormat format, boolean littleEndian, String coding, long frames, List<String> notices) {

  /** Fixed part, coding and the longest name. */
  static final int MOST_BYTES = 22 + 256;

  private static final int PLAIN_BYTES = 18;

  /**
   * Codings that keep whole samples: bits of the word, 0 when COMM gives them; 1 if the low byte
   * stands first.
   */
  private static final Map<String, int[]> CODINGS =
      Map.ofEntries(
          Map.entry("NONE", new int[] {0, 0}),
          Map.entry("twos", new int[] {0, 0}),
          Map.entry("sowt", new int[] {0, 1}),
          Map.entry("in24", new int[] {24, 0}),
          Map.entry("42ni", new int[] {24, 1}),
          Map.entry("in32", new int[] {32, 0}),
          Map.entry("23ni", new int[] {32, 1}));

  private static final Map<String, Integer> FLOATS =
      Map.of("fl32", 32, "FL32", 32, "fl64", 64, "FL64", 64);

  /** Compressed codings, from memory of the AIFF-C and QuickTime registries. */
  private static final Map<String, String> CODECS =
      Map.ofEntries(
          Map.entry("ulaw", "mu-law"),
          Map.entry("ULAW", "mu-law"),
          Map.entry("alaw", "a-law"),
          Map.entry("ALAW", "a-law"),
          Map.entry("ima4", "IMA ADPCM"),
          Map.entry("MAC3", "MACE 3:1"),
          Map.entry("MAC6", "MACE 6:1"),
          Map.entry("GSM ", "GSM 6.10"),
          Map.entry("G722", "G.722"),
          Map.entry("QDMC", "QDesign Music"),
          Map.entry("QDM2", "QDesign Music"),
          Map.entry("Qclp", "PureVoice"));

  static AiffCommonChunk parse(SideBytes file, String where, byte[] c, boolean compressedForm)
      throws InputRejectedException {
    int least = compressedForm ? PLAIN_BYTES + 4 : PLAIN_BYTES;
    if (c.length < least) {
      throw file.reject(
          where,
          "it holds " + c.length + " bytes and needs at least " + least,
          ParsedSide.COPY_OR_EXPORT);
    }
    List<String> notices = new ArrayList<>();
    int channels = Bytes.u16Big(c, 0);
    int bits = Bytes.u16Big(c, 6);
    String coding = compressedForm ? Bytes.ascii(c, PLAIN_BYTES, 4) : "NONE";
    Integer floatBits = FLOATS.get(coding);
    int[] pcm = CODINGS.get(coding);
    if (coding.equals("raw ")) {
      ParsedSide.checkWidth(file, where, SampleCoding.PCM, 8);
    }
    if (floatBits == null && pcm == null) {
      String name = CODECS.get(coding);
      throw file.reject(
          where,
          "the samples are coded as "
              + (name == null ? "'" + printable(coding) + "', which is unknown" : name),
          ParsedSide.EXPORT_PCM);
    }
    ParsedSide.checkChannels(file, where, channels);
    double rate = ExtendedFloat.read(c, 8);
    ParsedSide.checkRate(file, where, rate);
    int container;
    if (floatBits != null) {
      container = floatBits;
    } else {
      container = pcm[0] == 0 ? (bits + 7) / 8 * 8 : pcm[0];
    }
    if (floatBits == null && pcm[0] == 0) {
      ParsedSide.checkWidth(file, where, SampleCoding.PCM, bits);
    } else if (bits > container
        || bits <= container - 8
        || floatBits != null && bits != container) {
      notices.add(
          "The COMM chunk gives " + bits + " bits, coding '" + coding + "' has " + container + ".");
      bits = container;
    }
    AudioFormat format =
        new AudioFormat(
            (int) rate,
            channels,
            floatBits != null ? SampleCoding.FLOAT : SampleCoding.PCM,
            container,
            bits);
    return new AiffCommonChunk(
        format, pcm != null && pcm[1] == 1, coding, Bytes.u32Big(c, 2), List.copyOf(notices));
  }

  private static String printable(String coding) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < coding.length(); i++) {
      char ch = coding.charAt(i);
      text.append(ch >= 0x20 && ch <= 0x7e ? ch : '?');
    }
    return text.toString();
  }
}
