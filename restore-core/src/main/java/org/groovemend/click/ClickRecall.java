package org.groovemend.click;

import java.util.List;
import org.groovemend.signal.interval.ShareInterval;

/**
 * How many clicks of known size this side's settings find: clicks were added to working copies of
 * the side and sought.
 *
 * @param shapes "side" if the clicks had the shapes of this side's own confident ones, "standard"
 *     if it had too few
 * @param shapeCount how many different shapes
 * @param sizes by size, rising; empty if the side has no place to try
 */
public record ClickRecall(String shapes, int shapeCount, List<Size> sizes) {
  public static final String OF_SIDE = "side";
  public static final String STANDARD = "standard";

  public ClickRecall {
    sizes = List.copyOf(sizes);
  }

  /** Sizes from which on a click is loud to anybody, dB. */
  private static final double LOUD = 40;

  private static final int ENOUGH = 12;

  /**
   * All clicks from {@link #LOUD} up as one size, or null if too few of them were tried to say
   * anything.
   */
  public Size loud() {
    int injected = 0;
    int found = 0;
    for (Size size : sizes) {
      if (size.decibels() >= LOUD) {
        injected += size.injected();
        found += size.found();
      }
    }
    return injected < ENOUGH ? null : Size.of(LOUD, injected, found);
  }

  /** Whether even loud clicks are found less than half the time, beyond chance. */
  public boolean blind() {
    Size loud = loud();
    return loud != null && loud.high() < 0.5;
  }

  /**
   * Clicks of one size.
   *
   * @param decibels in the wall where it stands out more: energy of what the click adds to the
   *     prediction error, over the variance of that error in the 12 ms about it
   * @param injected how many were added
   * @param found how many of them were found, in that wall
   * @param low of the 95 % interval of the share found (Wilson 1927)
   * @param high of the same
   */
  public record Size(double decibels, int injected, int found, double low, double high) {
    static Size of(double decibels, int injected, int found) {
      ShareInterval interval = ShareInterval.wilson(found, injected);
      return new Size(decibels, injected, found, interval.low(), interval.high());
    }

    /** Share found, 0 to 1. */
    public double share() {
      return injected == 0 ? 0 : found / (double) injected;
    }
  }
}
