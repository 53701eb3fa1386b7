package org.groovemend.audio.file;

import java.util.Arrays;
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

  /** What the channels hold. */
  public enum Mode {
    MONO("mono"),
    STEREO("stereo"),
    /** Two channels with one and the same signal. */
    DUAL_MONO("dual-mono");

    private final String key;

    Mode(String key) {
      this.key = key;
    }

    /** One channel is mono, two are stereo unless something else is known. */
    static Mode of(AudioFormat format) {
      return format.channels() == 1 ? MONO : STEREO;
    }
  }

  private CodingHistory() {}

  /**
   * The mode of a file whose history this is: dual-mono if the last line says so and there are two
   * channels, else what the channels tell.
   */
  public static Mode mode(String history, AudioFormat format) {
    String last = history.lines().reduce("", (before, line) -> line.isBlank() ? before : line);
    boolean dual =
        format.channels() == 2
            && Arrays.asList(last.split(",")).contains("M=" + Mode.DUAL_MONO.key);
    return dual ? Mode.DUAL_MONO : Mode.of(format);
  }

  /** The line for a file whose channels are mono if there is one, stereo if there are two. */
  public static String line(AudioFormat format, String text) {
    return line(format, Mode.of(format), text);
  }

  /**
   * The line for a file of this format. Float samples are {@code A=PCM} of their width, since R 98
   * knows no float, and the text begins with "IEEE float".
   *
   * @param mode what the channels hold; mono for one channel, another one for two
   * @param text what was done and with what; ASCII from space to tilde, no comma (semicolons part
   *     it)
   * @return the line with its CR LF
   * @throws IllegalArgumentException if the text holds a comma or a character that is not allowed,
   *     or the mode does not fit the channels
   */
  public static String line(AudioFormat format, Mode mode, String text) {
    if ((mode == Mode.MONO) != (format.channels() == 1)) {
      throw new IllegalArgumentException(mode + " does not fit " + format.channels() + " channels");
    }
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
        + mode.key
        + ",T="
        + (isFloat ? "IEEE float; " : "")
        + text
        + LINE_END;
  }
}
