package org.groovemend.audio.flac;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SampleCoding;

/**
 * What stands before the frames: tags of another kind, "fLaC", and the metadata blocks (RFC 9639
 * section 8).
 *
 * <p>Only STREAMINFO is understood; the other blocks are told by name and length and kept as they
 * are.
 *
 * @param parts blocks in file order, for people
 * @param framesOffset where the first frame begins in the file
 */
record FlacMetadata(StreamInfo info, AudioFormat format, List<String> parts, long framesOffset) {

  private static final List<String> BLOCK_NAMES =
      List.of(
          "STREAMINFO",
          "PADDING",
          "APPLICATION",
          "SEEKTABLE",
          "VORBIS_COMMENT",
          "CUESHEET",
          "PICTURE");

  private static final int MAX_BLOCK_SIZE = 65_535;

  /** Header 6, a constant subframe 3, CRC-16. */
  private static final int MIN_FRAME_BYTES = 11;

  private static final String ANOTHER_COPY =
      "the file may be damaged or not a FLAC file, so take another copy";

  static FlacMetadata read(FileChannel file, Path path) throws IOException {
    List<String> parts = new ArrayList<>();
    long at = 0;
    byte[] head = bytes(file, at, 10);
    while (startsWith(head, "ID3")) {
      // ID3v2: the length is in four bytes of seven bits, without the header and the footer that a
      // flag announces
      long length = 10 + (head[6] << 21 | head[7] << 14 | head[8] << 7 | head[9]);
      length += (head[5] & 0x10) != 0 ? 10 : 0;
      if ((head[6] | head[7] | head[8] | head[9]) < 0) {
        throw rejected(path, at, "the length of the leading ID3v2 tag is malformed", ANOTHER_COPY);
      }
      parts.add("ID3v2 tag " + length + " bytes");
      at += length;
      head = bytes(file, at, 10);
    }
    if (startsWith(head, "OggS")) {
      throw rejected(
          path,
          at,
          "this is an Ogg file",
          "take the FLAC stream out of Ogg with a general program");
    }
    if (!startsWith(head, "fLaC")) {
      throw rejected(path, at, "the marker fLaC is missing", ANOTHER_COPY);
    }
    at += 4;
    StreamInfo info = null;
    boolean last = false;
    while (!last) {
      byte[] header = bytes(file, at, 4);
      if (header.length < 4) {
        throw rejected(path, at, "the file ends before the last metadata block", ANOTHER_COPY);
      }
      last = header[0] < 0;
      int type = header[0] & 0x7f;
      int length = (header[1] & 0xff) << 16 | (header[2] & 0xff) << 8 | header[3] & 0xff;
      if (type == 127 || info == null != (type == 0) || type == 0 && length != StreamInfo.BYTES) {
        String what = "a metadata block of type " + type + " and " + length + " bytes stands here";
        throw rejected(path, at, what + ", where it must not", ANOTHER_COPY);
      }
      if (at + 4 + length > file.size()) {
        throw rejected(path, at, "a metadata block is longer than the file", ANOTHER_COPY);
      }
      if (type == 0) {
        info = StreamInfo.parse(bytes(file, at + 4, length));
      }
      String name = type < BLOCK_NAMES.size() ? BLOCK_NAMES.get(type) : "reserved type " + type;
      parts.add(name + " " + length + " bytes");
      at += 4 + length;
    }
    AudioFormat format = format(info, path);
    if (info.totalFrames() / MAX_BLOCK_SIZE > (file.size() - at) / MIN_FRAME_BYTES) {
      String what = info.totalFrames() + " samples are promised, more than the file has room for";
      throw new InputRejectedException(path, "in STREAMINFO", what, ANOTHER_COPY);
    }
    return new FlacMetadata(info, format, List.copyOf(parts), at);
  }

  private static AudioFormat format(StreamInfo info, Path path) throws InputRejectedException {
    String remedy = "convert a copy to 16 or 24 bits, mono or stereo, 8 to 384 kHz";
    String where = "in STREAMINFO";
    if (info.channels() > 2) {
      String what = info.channels() + " channels, and only mono and stereo are taken";
      throw new InputRejectedException(path, where, what, remedy);
    }
    if (info.bits() < 16) {
      String what = info.bits() + " bits a sample, and fewer than 16 are not taken";
      throw new InputRejectedException(path, where, what, remedy);
    }
    if (info.sampleRateHz() < AudioFormat.MIN_RATE_HZ
        || info.sampleRateHz() > AudioFormat.MAX_RATE_HZ) {
      String what = "a sampling rate of " + info.sampleRateHz() + " Hz, which is not taken";
      throw new InputRejectedException(path, where, what, remedy);
    }
    int container = info.bits() == 16 ? 16 : info.bits() <= 24 ? 24 : 32;
    return new AudioFormat(
        info.sampleRateHz(), info.channels(), SampleCoding.PCM, container, info.bits());
  }

  private static byte[] bytes(FileChannel file, long at, int count) throws IOException {
    FileWindow window = new FileWindow(file, count);
    window.seek(at);
    window.fill(count);
    return window.take(Math.min(count, window.available()));
  }

  private static boolean startsWith(byte[] head, String marker) {
    byte[] ascii = marker.getBytes(StandardCharsets.US_ASCII);
    boolean same = head.length >= (ascii.length == 3 ? 10 : ascii.length);
    for (int i = 0; same && i < ascii.length; i++) {
      same = head[i] == ascii[i];
    }
    return same;
  }

  private static InputRejectedException rejected(Path path, long at, String what, String whatToDo) {
    return new InputRejectedException(path, "at byte " + at, what, whatToDo);
  }
}
