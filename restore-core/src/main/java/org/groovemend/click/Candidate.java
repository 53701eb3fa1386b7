package org.groovemend.click;

/**
 * A place that stands out of its surroundings, in one channel.
 *
 * @param start first frame of the damage, by frame number of the side
 * @param length frames
 * @param channel 0 based
 * @param peak largest two-sided prediction error in the place, in standard deviations of the block
 * @param energy square root of the residual energy explained by declaring the place unknown, in standard deviations of the block
 * @param before scale of the two-sided error just before the place, relative to the block
 * @param after the same just after it
 * @param unexplained root mean square of the residual that remains in the place and just after it once filled, relative to the block
 * @param scale standard deviation of the residual of the block
 * @param amplitude largest estimated damage, with its sign, full scale 1.0
 * @param level root mean square of the block once filled, full scale 1.0
 * @param fill samples of the filled place
 */
record Candidate(
    long start,
    int length,
    int channel,
    double peak,
    double energy,
    double before,
    double after,
    double unexplained,
    double scale,
    double amplitude,
    double level,
    double[] fill) {
  long end() {
    return start + length;
  }
}
