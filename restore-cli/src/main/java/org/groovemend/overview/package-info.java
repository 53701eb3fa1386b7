/**
 * What a person wants to see of a collection in the morning: sums, what failed, the worst first,
 * what is unlike the rest, and which sides to listen to.
 *
 * <p>{@link org.groovemend.overview.CollectionFigures} reads the catalogue. {@link
 * org.groovemend.overview.Comparison} compares each {@link org.groovemend.overview.Measure} of a
 * side with the sides of its series, or of the collection where the series is small, by median and
 * median absolute deviation, which up to half of the sides cannot move: the modified z-score, and
 * its limit of 3.5, of Iglewicz and Hoaglin, "How to Detect and Handle Outliers" (1993), as the
 * NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.17, gives it. {@link
 * org.groovemend.overview.SamplingPlan} says how many sides must be heard. {@link
 * org.groovemend.overview.OverviewFiles} writes page and table.
 *
 * <p>Limits. An outlier is no fault and a fault need be no outlier: where most of a collection is
 * damaged alike, nothing stands out. That is what the sample at random is for.
 */
package org.groovemend.overview;
