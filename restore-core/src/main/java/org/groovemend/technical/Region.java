package org.groovemend.technical;

/**
 * A part of a side, such as a band.
 *
 * @param label its name, may be empty
 * @param firstFrame 0 to the end of the file
 * @param frames above 0
 */
public record Region(String label, long firstFrame, long frames) {
  public Region {
    if (firstFrame < 0 || frames <= 0) {
      throw new IllegalArgumentException(
          "region \"" + label + "\" of " + frames + " frames at " + firstFrame);
    }
  }
}
