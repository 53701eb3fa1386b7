package org.groovemend.speed;

/**
 * Speed at one moment of a side.
 *
 * @param seconds in the transfer
 * @param factor by which it is to run faster there, over and above that of the whole side
 */
public record DriftNode(double seconds, double factor) {
  public DriftNode {
    if (!(seconds >= 0) || !Double.isFinite(seconds)) {
      throw new IllegalArgumentException("a moment of drift at " + seconds + " s is none");
    }
    TimeMap.requireFactor(factor);
  }
}
