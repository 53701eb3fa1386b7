package org.groovemend.audio.file;

import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/**
 * Lines of the CodingHistory of a {@code bext} chunk: one for each generation of the sound, oldest
 * first.
 *
 * <p>Fields in the order A, F, B, W, M, T, joined by commas, ended by CR LF: coding, rate in Hz,
 * bit rate in kbit/s (compressed codings only), word length in bits, mode, free text without
 * commas.
 *
 * @see <a href="https://tech.ebu.ch/docs/r/r098.pdf">EBU R 98</a>; order and form from memory and
 *     as read in public use
 */
public final class CodingHistory {

  static final String LINE_END = "\r\n";

  private CodingHistory() {}

  /**
   * The line for a file of this format. Float samples are {@code A=PCM} of their width, since R 98
   * knows no float, and the text begins with "IEEE float".
   *
   * @param text what was done and with what; ASCII from space to tilde, no comma (semicolons part
   *     it)
   * @return the line with its CR LF
   * @throws IllegalArgumentException if the text holds a comma or a character that is not allowed
   */
  public static String line(AudioFormat format, String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < 0x20 || c > 0x7e || c == ',') {
        throw new IllegalArgumentException(
            "character " + (int) c + " at " + i + " cannot stand in the text of a coding history");
      }
    }
    boolean isFloat = format.coding() == SampleCoding.FLOAT;
    return "A=PCM,F="
        + format.sampleRateHz()
        + ",W="
        + format.significantBits()
        + ",M="
        + (format.channels() == 1 ? "mono" : "stereo")
        + ",T="
        + (isFloat ? "IEEE float; " : "")
        + text
        + LINE_END;
  }
}
