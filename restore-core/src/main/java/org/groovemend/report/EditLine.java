package org.groovemend.report;

/**
 * One edit as a line of a table.
 *
 * @param number in the ledger, from 1
 * @param stage key of the treatment
 * @param channel 0 based
 * @param start first changed frame
 * @param end one past the last
 * @param statistic of the detector
 * @param threshold of the detector, same unit; where the other channel supports a place, less than
 *     it is enough
 * @param method how the place was filled
 * @param uncertaintyDbfs RMS of the expected error of the fill, NaN if unknown
 */
public record EditLine(
    long number,
    String stage,
    int channel,
    long start,
    long end,
    double statistic,
    double threshold,
    String method,
    double uncertaintyDbfs) {

  /**
   * How far the statistic stands above its threshold, in its own unit; near 0, or below it, is
   * doubtful.
   */
  public double margin() {
    return statistic - threshold;
  }
}
