package org.groovemend.deliverable;

import java.util.regex.Pattern;
import org.groovemend.audio.AudioFormat;

/**
 * A copy that is wanted of every side.
 *
 * @param kind what it is
 * @param name part of its file name: SIDE.NAME.wav; letters, digits, hyphen, underscore
 * @param container form of its file; null for a preservation copy, which keeps its own
 * @param rateHz sampling rate, 0 for that of the side
 * @param depth of its words, null for that of the side
 * @param gainDb stated gain, -60 to 60, 0 for none
 * @param loudness that it is to have, or null
 * @param bands true for a file of each band, false for one of the whole side
 */
public record CopyWish(
    CopyKind kind,
    String name,
    Container container,
    int rateHz,
    Depth depth,
    double gainDb,
    LoudnessWish loudness,
    boolean bands) {

  private static final Pattern NAME = Pattern.compile("[A-Za-z0-9_-]{1,40}");
  private static final double MOST_GAIN_DB = 60;

  public CopyWish {
    if (!NAME.matcher(name).matches()) {
      throw new IllegalArgumentException(
          "the name \""
              + name
              + "\" is not 1 to 40 letters of a to z, digits, hyphens or underscores");
    }
    if (kind == CopyKind.PRESERVATION
        && (container != null
            || rateHz != 0
            || depth != null
            || gainDb != 0
            || loudness != null
            || bands)) {
      throw new IllegalArgumentException(
          "a preservation copy is the transfer byte for byte: it takes no format, rate, depth, gain, loudness or bands");
    }
    if (kind != CopyKind.PRESERVATION && container == null) {
      throw new IllegalArgumentException("a copy needs a format");
    }
    if (rateHz != 0 && (rateHz < AudioFormat.MIN_RATE_HZ || rateHz > AudioFormat.MAX_RATE_HZ)) {
      throw new IllegalArgumentException(
          "rate "
              + rateHz
              + " is outside "
              + AudioFormat.MIN_RATE_HZ
              + " to "
              + AudioFormat.MAX_RATE_HZ
              + " Hz");
    }
    if (!(Math.abs(gainDb) <= MOST_GAIN_DB)) {
      throw new IllegalArgumentException("gain " + gainDb + " is outside -60 to 60 dB");
    }
    if (gainDb != 0 && loudness != null) {
      throw new IllegalArgumentException(
          "gain and loudness both say how loud the copy is to be; give one of them");
    }
  }

  /** The untouched copy. */
  public static CopyWish preservation() {
    return new CopyWish(
        CopyKind.PRESERVATION, CopyKind.PRESERVATION.key(), null, 0, null, 0, null, false);
  }

  /** A copy with all else as the side has it. */
  public static CopyWish of(CopyKind kind, Container container) {
    return new CopyWish(kind, kind.key(), container, 0, null, 0, null, false);
  }
}
