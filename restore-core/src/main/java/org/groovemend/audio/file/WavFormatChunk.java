package org.groovemend.audio.file;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SampleCoding;

/**
 * The content of a WAVE {@code fmt } chunk.
 *
 * <p>Little-endian: tag u16, channels u16, rate u32, bytes per second u32, block align u16, bits
 * u16; with tag FFFE also size of the rest u16 (22), valid bits u16, channel mask u32, GUID of 16
 * bytes whose first two are the tag proper.
 *
 * @param format shape of the samples
 * @param extensible whether the tag is FFFE
 * @param notices counts that are wrong but needless: one sentence each
 */
record WavFormatChunk(AudioFormat format, boolean extensible, List<String> notices) {

  static final int PLAIN_BYTES = 16;
  static final int EXTENSIBLE_BYTES = 40;

  private static final int TAG_PCM = 1;
  private static final int TAG_FLOAT = 3;
  private static final int TAG_EXTENSIBLE = 0xfffe;

  /** Bytes 2 to 15 of the GUIDs that stand for a format tag. */
  private static final byte[] GUID_TAIL = HexFormat.of().parseHex("000000001000800000aa00389b71");

  /** Format tags of compressed codings, from memory of the public registry of WAVE format tags. */
  private static final Map<Integer, String> CODECS =
      Map.ofEntries(
          Map.entry(0x0002, "ADPCM"),
          Map.entry(0x0006, "a-law"),
          Map.entry(0x0007, "mu-law"),
          Map.entry(0x0010, "OKI ADPCM"),
          Map.entry(0x0011, "IMA ADPCM"),
          Map.entry(0x0014, "G.723 ADPCM"),
          Map.entry(0x0031, "GSM 6.10"),
          Map.entry(0x0040, "G.721 ADPCM"),
          Map.entry(0x0050, "MPEG layer I or II"),
          Map.entry(0x0055, "MP3"),
          Map.entry(0x00ff, "AAC"),
          Map.entry(0x0160, "Windows Media Audio"),
          Map.entry(0x0161, "Windows Media Audio"),
          Map.entry(0x2000, "AC-3"),
          Map.entry(0xf1ac, "FLAC"));

  static WavFormatChunk parse(SideBytes file, String where, byte[] c)
      throws InputRejectedException {
    if (c.length < PLAIN_BYTES) {
      throw file.reject(
          where,
          "it holds " + c.length + " bytes and needs at least 16",
          ParsedSide.COPY_OR_EXPORT);
    }
    List<String> notices = new ArrayList<>();
    int tag = Bytes.u16(c, 0);
    int channels = Bytes.u16(c, 2);
    long rate = Bytes.u32(c, 4);
    int bits = Bytes.u16(c, 14);
    boolean extensible = tag == TAG_EXTENSIBLE;
    int validBits = bits;
    if (extensible) {
      if (c.length < EXTENSIBLE_BYTES) {
        throw file.reject(
            where,
            "an extensible format needs 40 bytes and it holds " + c.length,
            ParsedSide.COPY_OR_EXPORT);
      }
      if (!Arrays.equals(c, 26, 40, GUID_TAIL, 0, GUID_TAIL.length)) {
        throw file.reject(
            where,
            "its format GUID " + HexFormat.of().formatHex(c, 24, 40) + " is unknown",
            ParsedSide.EXPORT_PCM);
      }
      tag = Bytes.u16(c, 24);
      validBits = Bytes.u16(c, 18);
      if (Bytes.u16(c, 16) != 22) {
        notices.add(
            "The fmt chunk says " + Bytes.u16(c, 16) + " bytes of extension follow, there are 22.");
      }
    }
    if (tag != TAG_PCM && tag != TAG_FLOAT) {
      String name = CODECS.get(tag);
      throw file.reject(
          where,
          "the samples are coded as "
              + (name == null ? "format tag " + tag + ", which is unknown" : name),
          ParsedSide.EXPORT_PCM);
    }
    ParsedSide.checkChannels(file, where, channels);
    ParsedSide.checkRate(file, where, (double) rate);
    checkSizes(file, where, c, channels, rate, bits, notices);
    int containerBits = (bits + 7) / 8 * 8;
    SampleCoding coding = tag == TAG_PCM ? SampleCoding.PCM : SampleCoding.FLOAT;
    ParsedSide.checkWidth(file, where, coding, bits);
    if (validBits == 0 || coding == SampleCoding.FLOAT && validBits != bits) {
      notices.add(
          "The fmt chunk gives " + validBits + " valid bits, all " + bits + " bits are taken.");
      validBits = bits;
    }
    if (validBits > bits) {
      throw file.reject(
          where,
          "it gives " + validBits + " valid bits in a word of " + bits,
          ParsedSide.EXPORT_AGAIN);
    }
    return new WavFormatChunk(
        new AudioFormat((int) rate, channels, coding, containerBits, validBits),
        extensible,
        List.copyOf(notices));
  }

  /**
   * Block align and byte rate only repeat what rate, channels and bits say. One of them alone may
   * be wrong; when both differ, nobody can tell how wide a sample is.
   */
  private static void checkSizes(
      SideBytes file,
      String where,
      byte[] c,
      int channels,
      long rate,
      int bits,
      List<String> notices)
      throws InputRejectedException {
    long byteRate = Bytes.u32(c, 8);
    int blockAlign = Bytes.u16(c, 12);
    int align = channels * ((bits + 7) / 8);
    boolean alignRight = blockAlign == align;
    boolean rateRight = byteRate == rate * align;
    if (!alignRight && !rateRight) {
      throw file.reject(
          where,
          bits
              + " bits, block align "
              + blockAlign
              + " and byte rate "
              + byteRate
              + " contradict each other for "
              + channels
              + " channel"
              + (channels > 1 ? "s" : "")
              + " at "
              + rate
              + " Hz",
          ParsedSide.EXPORT_AGAIN);
    }
    if (!alignRight) {
      notices.add("The fmt chunk gives block align " + blockAlign + ", it is " + align + ".");
    }
    if (!rateRight) {
      notices.add(
          "The fmt chunk gives " + byteRate + " bytes a second, it is " + rate * align + ".");
    }
  }

  /**
   * The content this project writes when the original has none: plain PCM for 16 bits, plain float,
   * extensible for wider PCM, as WAVE_FORMAT_EXTENSIBLE asks above 16 bits.
   */
  static byte[] content(AudioFormat format) {
    boolean pcm = format.coding() == SampleCoding.PCM;
    boolean extensible =
        pcm && (format.containerBits() > 16 || format.significantBits() < format.containerBits());
    // the plain float form carries an empty extension, as for every tag other than PCM
    byte[] out = new byte[extensible ? EXTENSIBLE_BYTES : pcm ? PLAIN_BYTES : PLAIN_BYTES + 2];
    int tag = pcm ? TAG_PCM : TAG_FLOAT;
    Bytes.put(out, 0, extensible ? TAG_EXTENSIBLE : tag, 2);
    Bytes.put(out, 2, format.channels(), 2);
    Bytes.put(out, 4, format.sampleRateHz(), 4);
    Bytes.put(out, 8, (long) format.sampleRateHz() * format.bytesPerFrame(), 4);
    Bytes.put(out, 12, format.bytesPerFrame(), 2);
    Bytes.put(out, 14, format.containerBits(), 2);
    if (extensible) {
      Bytes.put(out, 16, EXTENSIBLE_BYTES - PLAIN_BYTES - 2, 2);
      Bytes.put(out, 18, format.significantBits(), 2);
      Bytes.put(out, 20, format.channels() == 1 ? 4 : 3, 4); // front centre; front left and right
      Bytes.put(out, 24, tag, 2);
      System.arraycopy(GUID_TAIL, 0, out, 26, GUID_TAIL.length);
    }
    return out;
  }
}
