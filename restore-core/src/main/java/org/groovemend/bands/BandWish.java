package org.groovemend.bands;

/**
 * How a side is to be cut.
 *
 * @param list what is known of the bands, or null
 * @param count how many bands there are, 0 for as many as are found
 * @param exact true to cut at the times of the list and nowhere near them
 * @param withinSeconds how far a gap may be from the time that the list tells
 * @param preRollSeconds left before the beginning of a band
 * @param endsApart true to make pieces of their own of run-in and run-out
 */
public record BandWish(
    BandList list,
    int count,
    boolean exact,
    double withinSeconds,
    double preRollSeconds,
    boolean endsApart) {

  public static final double WITHIN_SECONDS = 5;
  public static final double PRE_ROLL_SECONDS = 0.25;

  /** As many bands as are found. */
  public static BandWish found() {
    return new BandWish(null, 0, false, WITHIN_SECONDS, PRE_ROLL_SECONDS, true);
  }

  public BandWish {
    if (count < 0 || count > 999) {
      throw new BandListException("a side of " + count + " bands cannot be");
    }
    if (!(withinSeconds > 0 && withinSeconds <= 60)) {
      throw new BandListException(withinSeconds + " s is outside 0 to 60 s");
    }
    if (!(preRollSeconds >= 0 && preRollSeconds <= 5)) {
      throw new BandListException(preRollSeconds + " s is outside 0 to 5 s");
    }
    if (exact && (list == null || list.times() != BandList.Times.STARTS)) {
      throw new BandListException("to cut exactly, a list must tell where each band begins");
    }
    if (list != null && count > 0 && count != list.entries().size()) {
      throw new BandListException(
          "the list names " + list.entries().size() + " bands, but " + count + " are asked for");
    }
  }
}
