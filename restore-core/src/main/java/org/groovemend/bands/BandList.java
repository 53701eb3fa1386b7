package org.groovemend.bands;

import java.util.List;

/**
 * What a person knows of the bands of a side, in order: where they begin, or how long they last, or
 * only what they are called.
 */
public record BandList(List<BandEntry> entries) {

  /** What the list tells of times. */
  public enum Times {
    STARTS,
    DURATIONS,
    NONE
  }

  /**
   * @throws BandListException if there are none, if only some have a time, or if they do not ascend
   */
  public BandList {
    entries = List.copyOf(entries);
    if (entries.isEmpty()) {
      throw new BandListException("the list holds no band");
    }
    long timed = entries.stream().filter(BandEntry::timed).count();
    long lasting = entries.stream().filter(BandEntry::lasting).count();
    int all = entries.size();
    if (timed > 0 && timed < all) {
      throw new BandListException(
          "the list tells where "
              + timed
              + " of "
              + all
              + " bands begin; tell it of all or of none");
    }
    if (timed == 0 && lasting > 0 && lasting < all - 1) {
      throw new BandListException(
          "the list tells how long "
              + lasting
              + " of "
              + all
              + " bands last; tell it of all or none");
    }
    for (int i = 1; i < all && timed > 0; i++) {
      if (entries.get(i).startSeconds() <= entries.get(i - 1).startSeconds()) {
        throw new BandListException(
            "band "
                + (i + 1)
                + " begins at "
                + Clock.text(entries.get(i).startSeconds())
                + ", no later than band "
                + i
                + " at "
                + Clock.text(entries.get(i - 1).startSeconds())
                + "; put the list in order");
      }
    }
  }

  public Times times() {
    if (entries.get(0).timed()) {
      return Times.STARTS;
    }
    // the last one may go on to the end of the side
    return entries.get(0).lasting() ? Times.DURATIONS : Times.NONE;
  }
}
