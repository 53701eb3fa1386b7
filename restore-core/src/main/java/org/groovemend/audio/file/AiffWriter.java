package org.groovemend.audio.file;

import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.Words;

/**
 * Writes an AIFF file from front to back, big-endian; float samples give AIFF-C with the coding
 * {@code fl32} or {@code fl64}. The number of frames is announced beforehand. Not safe for use by
 * several threads.
 *
 * <p>Layout after "Audio Interchange File Format: AIFF" 1.3 (1989) and the draft of AIFF-C (1991),
 * from memory, checked by what independent programs read out of the files.
 */
public final class AiffWriter implements Closeable {

  /** Sizes stand in 32 bits. */
  static final long MAX_BYTES = 0xffff_ffffL;

  /** The only version of AIFF-C, as FVER names it. */
  private static final int AIFC_VERSION_1 = 0xA280_5140;

  private final SampleOutput out;
  private final long dataBytes;
  private final byte[] after;
  private final long totalBytes;

  private AiffWriter(SampleOutput out, long dataBytes, byte[] after, long totalBytes) {
    this.out = out;
    this.dataBytes = dataBytes;
    this.after = after;
    this.totalBytes = totalBytes;
  }

  /**
   * True if a file of this many frames is not too long for the form.
   *
   * @param tagBytes of the ID3 chunk, 0 for none
   */
  public static boolean holds(AudioFormat format, long frames, long tagBytes) {
    return frames <= MAX_BYTES
        && totalBytes(format, frames, tagBytes == 0 ? 0 : tagBytes + 9) - 8 <= MAX_BYTES;
  }

  /**
   * Creates the file, which must not exist, and writes its headers.
   *
   * @param frames exactly as many as will be written, 1 or more
   * @param id3 content of an {@code ID3 } chunk behind the samples, empty for none
   * @throws IllegalArgumentException if the form cannot hold that many
   * @throws java.nio.file.FileAlreadyExistsException if the file exists
   */
  public static AiffWriter create(Path file, AudioFormat format, long frames, byte[] id3)
      throws IOException {
    if (frames < 1 || !holds(format, frames, id3.length)) {
      throw new IllegalArgumentException(
          frames + " frames of " + format.bytesPerFrame() + " bytes do not go into an AIFF file");
    }
    byte[] after = tagChunk(id3);
    SampleOutput out = new SampleOutput(file, format, frames, true);
    boolean begun = false;
    try {
      out.put(head(format, frames, after.length));
      begun = true;
      return new AiffWriter(
          out, frames * format.bytesPerFrame(), after, totalBytes(format, frames, after.length));
    } finally {
      if (!begun) {
        out.close();
      }
    }
  }

  /** With its pad byte. */
  private static byte[] tagChunk(byte[] id3) {
    ByteArrayOutputStream chunk = new ByteArrayOutputStream();
    if (id3.length > 0) {
      id(chunk, "ID3 ");
      number(chunk, id3.length, 4);
      chunk.writeBytes(id3);
      number(chunk, 0, id3.length & 1);
    }
    return chunk.toByteArray();
  }

  private static long totalBytes(AudioFormat format, long frames, long afterBytes) {
    long data = frames * format.bytesPerFrame();
    return head(format, Math.min(frames, MAX_BYTES), 0).length + data + (data & 1) + afterBytes;
  }

  private static byte[] head(AudioFormat format, long frames, long afterBytes) {
    boolean compressedForm = format.coding() == SampleCoding.FLOAT;
    long data = frames * format.bytesPerFrame();
    ByteArrayOutputStream chunks = new ByteArrayOutputStream();
    if (compressedForm) {
      id(chunks, "AIFC");
      id(chunks, "FVER");
      number(chunks, 4, 4);
      number(chunks, AIFC_VERSION_1, 4);
    } else {
      id(chunks, "AIFF");
    }
    byte[] coding = compressedForm ? coding(format) : new byte[0];
    id(chunks, "COMM");
    number(chunks, 18 + coding.length, 4);
    number(chunks, format.channels(), 2);
    number(chunks, frames, 4);
    number(chunks, format.significantBits(), 2);
    byte[] rate = new byte[ExtendedFloat.BYTES];
    ExtendedFloat.write(format.sampleRateHz(), rate, 0);
    chunks.writeBytes(rate);
    chunks.writeBytes(coding);
    id(chunks, "SSND");
    number(chunks, 8 + data, 4);
    number(chunks, 0, 8); // offset and block size
    byte[] content = chunks.toByteArray();
    ByteArrayOutputStream file = new ByteArrayOutputStream();
    id(file, "FORM");
    number(file, content.length + data + (data & 1) + afterBytes, 4);
    file.writeBytes(content);
    return file.toByteArray();
  }

  /** Four characters and a name, its length before it, of an even number of bytes in all. */
  private static byte[] coding(AudioFormat format) {
    String name = format.containerBits() + "-bit floating point";
    byte[] out = new byte[4 + 1 + name.length() + (name.length() + 1 & 1)];
    Bytes.put(out, 0, "fl" + format.containerBits());
    out[4] = (byte) name.length();
    Bytes.put(out, 5, name);
    return out;
  }

  private static void id(ByteArrayOutputStream out, String id) {
    out.writeBytes(id.getBytes(StandardCharsets.US_ASCII));
  }

  private static void number(ByteArrayOutputStream out, long value, int bytes) {
    byte[] big = new byte[bytes];
    Words.putBigEndian(value, big, 0, bytes);
    out.writeBytes(big);
  }

  /**
   * Writes {@code count} frames from {@code words[channel][offset...]} on.
   *
   * @throws IllegalArgumentException if more frames come than were announced
   */
  public void write(long[][] words, int offset, int count) throws IOException {
    out.frames(words, offset, count);
  }

  /**
   * Makes sure that the file is on the disk.
   *
   * @throws IOException if fewer frames were written than announced; the file is then not usable
   */
  @Override
  public void close() throws IOException {
    if (!out.isOpen()) {
      return;
    }
    try (out) {
      out.requireAllFrames();
      if ((dataBytes & 1) != 0) {
        out.put(new byte[1]);
      }
      out.put(after);
      out.finish(totalBytes);
    }
  }
}
