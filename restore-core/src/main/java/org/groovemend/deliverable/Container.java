package org.groovemend.deliverable;

import java.util.Locale;
import java.util.Optional;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.file.AiffWriter;

/** A form of file that a copy can have. */
public enum Container {
  /** Broadcast Wave: always with a {@code bext} chunk (EBU Tech 3285); RF64 beyond 4 GiB. */
  WAV("wav"),
  FLAC("flac"),
  /** AIFF, for float words AIFF-C. */
  AIFF("aiff");

  /** Most frames of a FLAC stream, RFC 9639. */
  private static final long MOST_FLAC_FRAMES = (1L << 36) - 1;

  private final String key;

  Container(String key) {
    this.key = key;
  }

  /** Name in recipes, and end of file names. */
  public String key() {
    return key;
  }

  /** For people. */
  public String words() {
    return this == WAV ? "WAV (Broadcast Wave)" : name();
  }

  /** The container of a name, if there is one. */
  public static Optional<Container> ofKey(String key) {
    for (Container container : values()) {
      if (container.key.equals(key)) {
        return Optional.of(container);
      }
    }
    return Optional.empty();
  }

  /** What hinders a copy of this shape, as a sentence without a full stop; empty if nothing. */
  public Optional<String> hindrance(AudioFormat format, long frames, FileTags tags) {
    if (frames < 1) {
      return Optional.of("it would hold no samples");
    }
    if (this == FLAC && format.coding() == SampleCoding.FLOAT) {
      return Optional.of(
          "FLAC cannot hold float samples; give it a depth of 16, 24 or 32, or the format wav");
    }
    if (this == FLAC && frames > MOST_FLAC_FRAMES) {
      return Optional.of("FLAC cannot hold " + frames + " frames; give it the format wav");
    }
    if (this == AIFF && !AiffWriter.holds(format, frames, tags.aiffId3().length)) {
      return Optional.of(
          String.format(
              Locale.ROOT,
              "AIFF cannot hold %.2f GiB, its sizes end at 4 GiB; give it the format wav or flac",
              frames * (double) format.bytesPerFrame() / (1L << 30)));
    }
    return Optional.empty();
  }
}
