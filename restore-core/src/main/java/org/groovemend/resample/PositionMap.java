package org.groovemend.resample;

/**
 * Where in the input each output frame lies: a strictly growing function. May keep what it last
 * worked out; not for several threads at once.
 */
public interface PositionMap {

  /**
   * Positions of {@code count} output frames from {@code first} on, in input frames: {@code
   * whole[i] + fraction[i]}, parted so that no digits are lost far into a side.
   *
   * @param first 0 or more
   * @param fraction 0 to 1, both included
   */
  void positions(long first, int count, long[] whole, double[] fraction);

  /** The output frame at an input position, to a small part of a frame. */
  double outputFrame(long position);

  /** Most input frames that lie between two output frames, mean of any stretch. */
  double steepest();

  /** Fewest. */
  double gentlest();

  /** True if every output frame is the input frame of its number. */
  boolean identity();

  /** The first output frame that lies at an input position or behind it. */
  default long firstFrom(long position) {
    if (position <= 0) {
      return 0;
    }
    long[] whole = new long[1];
    double[] fraction = new double[1];
    long guess = Math.max(0, (long) Math.ceil(outputFrame(position)) - 2);
    while (guess > 0 && wholeOf(guess, whole, fraction) >= position) {
      guess--;
    }
    while (wholeOf(guess, whole, fraction) < position) {
      guess++;
    }
    return guess;
  }

  private long wholeOf(long frame, long[] whole, double[] fraction) {
    positions(frame, 1, whole, fraction);
    return whole[0];
  }
}
