package org.groovemend.listening;

import java.util.List;

/**
 * A passage to listen to, in several versions of equal length.
 *
 * @param passage what stretch of the side
 * @param sampleRateHz of the clips
 * @param gainDb what all versions were raised by, so that they can be compared
 * @param versions before first; only that one if the passage was not changed
 */
public record Clip(Passage passage, int sampleRateHz, double gainDb, List<Version> versions) {

  /** What is heard. */
  public enum Content {
    BEFORE,
    AFTER,
    REMOVED,
    /** What was removed, louder than it was. */
    REMOVED_RAISED
  }

  /**
   * One version.
   *
   * @param raisedDb what it was raised by beyond the gain of the others
   * @param flac a FLAC file of 16 bits; not to be written to
   */
  public record Version(Content content, double raisedDb, byte[] flac) {}

  public Clip {
    versions = List.copyOf(versions);
  }

  /** Length of all versions together. */
  long bytes() {
    return versions.stream().mapToLong(version -> version.flac().length).sum();
  }
}
