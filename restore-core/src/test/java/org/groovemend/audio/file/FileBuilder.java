package org.groovemend.audio.file;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.Words;

/**
 * Puts WAV and AIFF files together byte by byte, right or wrong as a test wants them; knows nothing
 * of the code under test.
 */
final class FileBuilder {

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final boolean big;
  private Long wholeSize;

  private FileBuilder(String magic, String form, boolean big) {
    this.big = big;
    ascii(magic);
    number(0, 4);
    ascii(form);
  }

  static FileBuilder wav() {
    return new FileBuilder("RIFF", "WAVE", false);
  }

  /** RF64 or BW64. */
  static FileBuilder large(String magic) {
    return new FileBuilder(magic, "WAVE", false).wholeSize(0xffff_ffffL);
  }

  static FileBuilder aiff(boolean compressedForm) {
    return new FileBuilder("FORM", compressedForm ? "AIFC" : "AIFF", true);
  }

  FileBuilder wholeSize(long size) {
    wholeSize = size;
    return this;
  }

  FileBuilder ascii(String text) {
    return raw(text.getBytes(StandardCharsets.ISO_8859_1));
  }

  FileBuilder raw(byte[] bytes) {
    out.writeBytes(bytes);
    return this;
  }

  FileBuilder hex(String hex) {
    return raw(HexFormat.of().parseHex(hex.replace(" ", "")));
  }

  FileBuilder number(long value, int bytes) {
    for (int i = 0; i < bytes; i++) {
      out.write((int) (value >>> 8 * (big ? bytes - 1 - i : i)));
    }
    return this;
  }

  /** A chunk whose size field says {@code size}. */
  FileBuilder chunk(String id, long size, byte[] content, boolean pad) {
    ascii(id).number(size, 4).raw(content);
    return pad && content.length % 2 != 0 ? number(0, 1) : this;
  }

  FileBuilder chunk(String id, byte[] content) {
    return chunk(id, content.length, content, true);
  }

  FileBuilder fmt(AudioFormat format) {
    return chunk("fmt ", plainFmt(format));
  }

  int length() {
    return out.size();
  }

  byte[] bytes() {
    byte[] bytes = out.toByteArray();
    long size = wholeSize == null ? bytes.length - 8 : wholeSize;
    for (int i = 0; i < 4; i++) {
      bytes[4 + i] = (byte) (size >>> 8 * (big ? 3 - i : i));
    }
    return bytes;
  }

  static byte[] plainFmt(AudioFormat f) {
    int tag = f.coding() == SampleCoding.PCM ? 1 : 3;
    return fmt(tag, f.channels(), f.sampleRateHz(), f.bytesPerFrame(), f.significantBits());
  }

  static byte[] fmt(int tag, int channels, long rate, int align, int bits) {
    return fmt(tag, channels, rate, rate * align, align, bits);
  }

  static byte[] fmt(int tag, int channels, long rate, long byteRate, int align, int bits) {
    return part(false)
        .number(tag, 2)
        .number(channels, 2)
        .number(rate, 4)
        .number(byteRate, 4)
        .number(align, 2)
        .number(bits, 2)
        .content();
  }

  static byte[] extensibleFmt(AudioFormat f) {
    return part(false)
        .raw(fmt(0xfffe, f.channels(), f.sampleRateHz(), f.bytesPerFrame(), f.containerBits()))
        .number(22, 2)
        .number(f.significantBits(), 2)
        .number(f.channels() == 1 ? 4 : 3, 4)
        .hex(f.coding() == SampleCoding.PCM ? "0100" : "0300")
        .hex("0000 0000 1000 8000 00aa 0038 9b71")
        .content();
  }

  static byte[] ds64(long riffSize, long dataSize, long sampleCount) {
    return part(false)
        .number(riffSize, 8)
        .number(dataSize, 8)
        .number(sampleCount, 8)
        .number(0, 4)
        .content();
  }

  /** Coding null for plain AIFF. */
  static byte[] comm(AudioFormat f, long frames, String codingOrNull) {
    FileBuilder comm = part(true).number(f.channels(), 2).number(frames, 4);
    comm.number(f.significantBits(), 2);
    int shift = Integer.numberOfLeadingZeros(f.sampleRateHz()) + 32;
    comm.number(16_383 + 63 - shift, 2).number((long) f.sampleRateHz() << shift, 8);
    if (codingOrNull != null) {
      comm.ascii(codingOrNull).number(0, 2);
    }
    return comm.content();
  }

  static byte[] ssnd(long offset, long blockSize, byte[] filler, byte[] samples) {
    return part(true).number(offset, 4).number(blockSize, 4).raw(filler).raw(samples).content();
  }

  /** Interleaved words as the slow obvious form has them. */
  static byte[] samples(long[][] words, AudioFormat f, boolean big) {
    int width = f.bytesPerSample();
    int frames = words[0].length;
    byte[] bytes = new byte[frames * f.bytesPerFrame()];
    for (int i = 0, at = 0; i < frames; i++) {
      for (int c = 0; c < f.channels(); c++, at += width) {
        if (big) {
          Words.putBigEndian(words[c][i], bytes, at, width);
        } else {
          Words.putLittleEndian(words[c][i], bytes, at, width);
        }
      }
    }
    return bytes;
  }

  static FileBuilder part(boolean big) {
    return new FileBuilder("", "", big);
  }

  /** What was added to a {@link #part}. */
  byte[] content() {
    byte[] bytes = out.toByteArray();
    return java.util.Arrays.copyOfRange(bytes, 4, bytes.length);
  }
}
