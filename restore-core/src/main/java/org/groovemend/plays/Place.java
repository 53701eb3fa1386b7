package org.groovemend.plays;

/**
 * A place where plays differ by more than noise.
 *
 * @param channel 0 based
 * @param start first frame, of the reference
 * @param end one past the last
 * @param damaged plays that are damaged there, bit i for play i
 * @param source play whose sound is taken there; -1 if all are damaged and nothing is done
 * @param peak largest difference, full scale 1.0 of the reference
 * @param sure true if chance would hardly confuse the damaged play with the sound one
 * @param brief true if it is short and met in both channels at once, as electric discharges are
 */
public record Place(
    int channel,
    long start,
    long end,
    int damaged,
    int source,
    double peak,
    boolean sure,
    boolean brief) {

  /** True if it is in all plays, so that none can help. */
  public boolean everywhere() {
    return source < 0;
  }

  boolean damages(int play) {
    return (damaged >> play & 1) == 1;
  }

  Place asBrief() {
    return new Place(channel, start, end, damaged, source, peak, sure, true);
  }
}
