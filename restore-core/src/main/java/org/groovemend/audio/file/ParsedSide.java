package org.groovemend.audio.file;

import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.InputRejectedException;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.WavChunk;

/**
 * What the headers of a file say: one run of interleaved samples, bytes before it and bytes after
 * it.
 *
 * @param container for people
 * @param samplesAt byte position of the first sample
 * @param frames at least 1
 */
record ParsedSide(
    String container,
    AudioFormat format,
    boolean bigEndian,
    long samplesAt,
    long frames,
    List<String> parts,
    List<String> notices,
    List<WavChunk> wavChunks) {

  static final String COPY_AGAIN = "copy the file again from where it came";
  static final String COPY_OR_EXPORT = "copy the file again or export the transfer again";
  static final String EXPORT_AGAIN = "export the transfer again";
  static final String EXPORT_PCM = "export the transfer as uncompressed PCM or float";

  long samplesEnd() {
    return samplesAt + frames * format.bytesPerFrame();
  }

  static void checkChannels(SideBytes file, String where, int channels)
      throws InputRejectedException {
    if (channels < 1) {
      throw file.reject(where, "it announces no channels", "export the transfer as mono or stereo");
    }
    if (channels > 2) {
      throw file.reject(
          where,
          "it announces " + channels + " channels and a side has one or two",
          "export the two channels of the groove as a stereo file");
    }
  }

  static void checkRate(SideBytes file, String where, double rate) throws InputRejectedException {
    if (!(rate >= AudioFormat.MIN_RATE_HZ && rate <= AudioFormat.MAX_RATE_HZ)) {
      throw file.reject(
          where,
          "the sample rate"
              + (rate == Math.rint(rate) ? " " + (long) rate : "")
              + " is not between 8000 and 384000 Hz",
          "export the transfer at the rate it was made at");
    }
    if (rate != Math.rint(rate)) {
      throw file.reject(
          where,
          "the sample rate is not a whole number of Hz",
          "export the transfer at the rate it was made at");
    }
  }

  static void checkWidth(SideBytes file, String where, SampleCoding coding, int bits)
      throws InputRejectedException {
    boolean taken = coding == SampleCoding.PCM ? bits > 8 && bits <= 32 : bits == 32 || bits == 64;
    if (!taken) {
      throw file.reject(
          where,
          coding == SampleCoding.PCM
              ? "samples of " + bits + " bits are not taken"
              : "floating-point samples of " + bits + " bits are not taken",
          coding == SampleCoding.PCM
              ? "transfer the side again at 24 bits, or export it with 16, 24 or 32"
              : "export the transfer as 32-bit float or 24-bit PCM");
    }
  }

  /** Header sizes that mean: not known when the header was written. */
  static boolean unset(long size32) {
    return size32 == 0 || size32 == 0xffff_ffffL;
  }
}
