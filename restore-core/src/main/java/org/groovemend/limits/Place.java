package org.groovemend.limits;

/**
 * A place in the file.
 *
 * @param fromFrame first frame
 * @param toFrame end, exclusive
 * @param fromSeconds the same in seconds
 * @param toSeconds the same in seconds
 * @param channel 0 based, or -1 for all
 * @param what a few words
 */
public record Place(
    long fromFrame, long toFrame, double fromSeconds, double toSeconds, int channel, String what) {

  public static Place of(long fromFrame, long toFrame, int rate, int channel, String what) {
    return new Place(
        fromFrame, toFrame, fromFrame / (double) rate, toFrame / (double) rate, channel, what);
  }
}
