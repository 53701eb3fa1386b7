package org.groovemend.technical;

import java.util.List;
import org.groovemend.ledger.FileFacts;

/**
 * What is written of one file.
 *
 * @param file its identity and shape
 * @param role what it is for, in words ("preservation copy", "service copy"); may be empty
 * @param face label of the side of the disc it holds, such as "A"; may be empty
 * @param regions parts of it, in order; if none are given the whole is one
 * @param discOrNull what is stated of the disc
 * @param sourceOrNull the file it was made from
 * @param history what was done, oldest first, one sentence or line of a coding history each
 */
public record AudioObject(
    FileFacts file,
    String role,
    String face,
    List<Region> regions,
    Disc discOrNull,
    FileFacts sourceOrNull,
    List<String> history) {

  /**
   * Checks.
   *
   * @throws IllegalArgumentException if a region ends behind the file, in a sentence
   */
  public AudioObject {
    regions = List.copyOf(regions);
    history = List.copyOf(history);
    for (Region region : regions) {
      if (region.firstFrame() + region.frames() > file.frames()) {
        throw new IllegalArgumentException(
            "The region \""
                + region.label()
                + "\" ends at frame "
                + (region.firstFrame() + region.frames())
                + ", but "
                + file.name()
                + " has only "
                + file.frames()
                + ".");
      }
    }
  }

  /** A file of which nothing more is known. */
  public static AudioObject of(FileFacts file) {
    return new AudioObject(file, "", "", List.of(), null, null, List.of());
  }
}
