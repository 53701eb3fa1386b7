package org.groovemend.bag;

/**
 * Something that is not as a bag should be.
 *
 * @param kind what sort of thing
 * @param file the file concerned, relative to the bag, as it is called on the disk
 * @param what a sentence
 */
public record BagFinding(Kind kind, String file, String what) {

  /** Sorts of findings. */
  public enum Kind {
    /** A file that is listed or required is not there. */
    MISSING(true),
    /** A payload file is not listed. */
    EXTRA(true),
    /** A file does not have the checksum that is listed. */
    CHANGED(true),
    /** A tag file cannot be understood. */
    MALFORMED(true),
    /** A path leads out of the bag; it was not followed. */
    UNSAFE(true),
    /** Could not be checked; says nothing against the bag. */
    NOT_CHECKED(false);

    private final boolean fault;

    Kind(boolean fault) {
      this.fault = fault;
    }

    /** Whether the bag is not complete or not valid because of it. */
    public boolean fault() {
      return fault;
    }
  }
}
