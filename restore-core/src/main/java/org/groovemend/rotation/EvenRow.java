package org.groovemend.rotation;

/**
 * Ticks at nearly equal distances.
 *
 * @param period mean distance of a turn, seconds: that of the straight line through all of them
 * @param surprise sum over all ticks but the first two of minus the natural logarithm of the
 *     probability that a random tick is found there
 * @param members their numbers, in order
 * @param turns in which turn each lies, the first in turn 0
 */
record EvenRow(double period, double surprise, int[] members, int[] turns) {

  int lastTurn() {
    return turns[turns.length - 1];
  }
}
