package org.groovemend.leadin;

/**
 * Four blocks of the side.
 *
 * @param line mean power of each line of the spectrum over the blocks kept and all channels
 * @param meanSquare mean square of the samples of the blocks kept, over all channels
 * @param silent true if no sample differs from the one before by more than the smallest step of the
 *     format
 */
record Slice(float[] line, double meanSquare, boolean silent) {

  double band(int from, int to) {
    double sum = 0;
    for (int k = from; k < to; k++) {
      sum += line[k];
    }
    return sum / (to - from);
  }
}
