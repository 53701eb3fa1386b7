package org.groovemend.audio.file;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.groovemend.audio.InputRejectedException;

/**
 * Tells a file's kind by its first bytes; what is no side is refused by name where the bytes give
 * one.
 */
enum FileKind {
  WAV,
  AIFF,
  FLAC;

  private static final String EXPORT =
      "export the transfer as WAV, AIFF or FLAC and give that file";
  private static final String COPY = ParsedSide.COPY_OR_EXPORT;
  private static final String TRANSFER_AGAIN =
      "give the uncompressed transfer, a lossy copy has lost what restoration works on";

  /**
   * Beginnings of files that are not sides: signature (what is no letter in octal), name, 1 if the
   * name is of a lossy coding.
   */
  private static final String[][] OTHERS = {
    {"OggS", "an Ogg file", "1"},
    {"RIFX", "a big-endian RIFX file", "0"},
    {".snd", "an AU file", "0"},
    {"caff", "a CAF file", "0"},
    {"riff.\221\317\21", "a Wave64 file", "0"},
    {"wvpk", "a WavPack file", "0"},
    {"MAC ", "a Monkey's Audio file", "0"},
    {"DSD ", "a DSD file", "0"},
    {"FRM8", "a DSD file", "0"},
    {"MThd", "a MIDI file", "0"},
    {"%PDF", "a PDF document", "0"},
    {"PK\3\4", "a ZIP archive", "0"},
    {"\32E\337\243", "a Matroska file", "1"},
  };

  static FileKind of(SideBytes file) throws IOException {
    if (file.size() == 0) {
      throw file.reject("at byte 0", "the file is empty", "copy or export the transfer again");
    }
    byte[] head = file.bytes(0, (int) Math.min(16, file.size()));
    String first = latin(head, 0, 4);
    String second = latin(head, 8, 12);
    if (first.equals("fLaC")) {
      return FLAC;
    }
    if (first.equals("RIFF") || first.equals("RF64") || first.equals("BW64")) {
      if (second.equals("WAVE")) {
        return WAV;
      }
      if (head.length < 12) {
        throw file.reject("at byte " + head.length, "the file ends before its first chunk", COPY);
      }
      throw notAudio(file, "at byte 8", first + " of another kind than WAVE");
    }
    if (first.equals("FORM") && (second.equals("AIFF") || second.equals("AIFC"))) {
      return AIFF;
    }
    if (first.startsWith("ID3")) {
      return behindId3(file, head);
    }
    for (String[] other : OTHERS) {
      if (latin(head, 0, other[0].length()).equals(other[0])) {
        throw file.reject(
            "at byte 0",
            "it is " + other[1] + ", which is not read",
            other[2].equals("1") ? TRANSFER_AGAIN : EXPORT);
      }
    }
    if (latin(head, 4, 8).equals("ftyp")) {
      throw file.reject("at byte 0", "it is an MP4 file, which is not read", TRANSFER_AGAIN);
    }
    // MPEG audio frame: eleven set bits, then a layer other than the reserved one (ISO 11172-3)
    if (head.length > 1 && head[0] == -1 && (head[1] & 0xe0) == 0xe0 && (head[1] & 6) != 0) {
      throw mp3(file);
    }
    throw notAudio(file, "at byte 0", "no kind of audio file that is known");
  }

  /**
   * An ID3v2 tag (id3.org, version 2.4) may stand before FLAC; before anything else it means MPEG
   * audio.
   */
  private static FileKind behindId3(SideBytes file, byte[] head) throws IOException {
    if (head.length >= 10) {
      long size = 10;
      for (int i = 6; i < 10; i++) {
        size += (long) (head[i] & 0x7f) << 7 * (9 - i);
      }
      boolean footer = (head[5] & 0x10) != 0;
      long after = size + (footer ? 10 : 0);
      if (after + 4 <= file.size() && latin(file.bytes(after, 4), 0, 4).equals("fLaC")) {
        return FLAC;
      }
    }
    throw mp3(file);
  }

  private static InputRejectedException mp3(SideBytes file) {
    return file.reject("at byte 0", "it is an MP3 file, which is not read", TRANSFER_AGAIN);
  }

  private static InputRejectedException notAudio(SideBytes file, String where, String what) {
    return file.reject(where, "this is " + what, EXPORT);
  }

  private static String latin(byte[] bytes, int from, int to) {
    return to > bytes.length ? "" : new String(bytes, from, to - from, StandardCharsets.ISO_8859_1);
  }
}
