package org.groovemend.click;

/**
 * A block as the detector leaves it, for {@link CandidateTraits}.
 *
 * @param samples as they are
 * @param filled with every place found filled
 * @param error forward residual of {@code filled}, valid from index {@code order} on
 * @param otherError forward residual of the other channel under this channel's model, or null
 * @param a prediction-error filter
 * @param b its correlation
 * @param order of the filter
 * @param level root mean square of {@code filled}
 */
record Block(
    double[] samples,
    double[] filled,
    double[] error,
    double[] otherError,
    double[] a,
    double[] b,
    int order,
    double level) {
  int size() {
    return samples.length;
  }
}
