package org.groovemend.ledger;

import java.util.Objects;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/**
 * Identity and shape of an audio file.
 *
 * @param name file name without any folder
 * @param bytes length of the file
 * @param sha256 of the whole file, lower-case hexadecimal
 * @param samplesSha256 of the samples alone, as {@link org.groovemend.audio.SampleDigest} has it
 * @param frames length in sample frames
 * @param format shape of the samples
 * @param container the container in words for people, such as "WAV (extensible)"
 */
public record FileFacts(
    String name,
    long bytes,
    String sha256,
    String samplesSha256,
    long frames,
    AudioFormat format,
    String container) {

  public FileFacts {
    Objects.requireNonNull(format, "format");
    Objects.requireNonNull(container, "container");
    requirePlainName(name);
    if (bytes < 0 || frames < 0) {
      throw new IllegalArgumentException(
          name + ": " + bytes + " bytes and " + frames + " frames, one is negative");
    }
    Sha256.requireHex(sha256, name + ": sha256");
    Sha256.requireHex(samplesSha256, name + ": samplesSha256");
  }

  /** The facts with the format spelt out. */
  public FileFacts(
      String name,
      long bytes,
      String sha256,
      String samplesSha256,
      long frames,
      int sampleRateHz,
      int channels,
      SampleCoding coding,
      int containerBits,
      int significantBits,
      String container) {
    this(
        name,
        bytes,
        sha256,
        samplesSha256,
        frames,
        new AudioFormat(sampleRateHz, channels, coding, containerBits, significantBits),
        container);
  }

  // A ledger is given away together with its files: where they once lay is nobody's business, and a
  // name that leads
  // elsewhere must not be followed when the files are looked for beside a ledger.
  static void requirePlainName(String name) {
    if (name == null
        || name.isEmpty()
        || name.equals(".")
        || name.equals("..")
        || name.indexOf('/') >= 0
        || name.indexOf('\0') >= 0) {
      throw new IllegalArgumentException("\"" + name + "\" is not a file name without a folder");
    }
  }
}
