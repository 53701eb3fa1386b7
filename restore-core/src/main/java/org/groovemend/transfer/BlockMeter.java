package org.groovemend.transfer;

/** Takes a side once, from its first frame to its last. */
@FunctionalInterface
public interface BlockMeter {

  /**
   * The next {@code count} frames; neither array is kept or changed.
   *
   * @param words {@code [channel][0...count)} as they stand in the file
   * @param samples the same, full scale 1.0
   */
  void accept(long[][] words, double[][] samples, int count);
}
