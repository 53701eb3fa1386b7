package org.groovemend.fixity;

/**
 * Something in a store that is not as it should be.
 *
 * @param kind what sort of thing
 * @param file where, relative to the store where it lies in it
 * @param what a sentence
 */
public record FixityFinding(Kind kind, String file, String what) {

  /** Sorts of findings. */
  public enum Kind {
    /** A file that something vouches for is not there. */
    MISSING(true),
    /** A file is not the one that was vouched for. */
    CHANGED(true),
    /** What vouches is itself not as it was written. */
    DAMAGED(true),
    /** A file that cannot be read. */
    UNREADABLE(true),
    /** A file that nothing vouches for and that belongs to nothing. */
    UNEXPECTED(false);

    private final boolean fault;

    Kind(boolean fault) {
      this.fault = fault;
    }

    /** Whether the store does not hold because of it. */
    public boolean fault() {
      return fault;
    }
  }
}
