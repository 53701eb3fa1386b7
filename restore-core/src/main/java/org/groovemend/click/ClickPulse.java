package org.groovemend.click;

/**
 * The shape of a click in the repair domain.
 *
 * @param walls samples by channel, all of one length; zeros where a wall is not hit
 */
record ClickPulse(double[][] walls) {
  int length() {
    return walls[0].length;
  }
}
