/**
 * Several plays or copies of one side brought onto one time base, compared, and made into one.
 *
 * <p>Alignment: how loudness moves in four ranges of frequency gives offset and ratio of speeds
 * ({@link org.groovemend.plays.CoarseSearch}); the delay of short passages by maximum likelihood
 * ({@link org.groovemend.signal.delay.DelayLikelihood}) gives anchors, each with its doubt; a
 * smooth curve through them, penalised splines (P. Eilers and B. Marx, "Flexible smoothing with
 * B-splines and penalties", Statistical Science 11(2), 1996), follows the difference of their wow.
 * How fast a change it follows is chosen by predicting every other anchor from the rest. The play
 * is then heard through the map and measured again, till nothing is left.
 *
 * <p>Merging: the reference play R stays; of every other play the difference E = x - R is added
 * with a weight that is real and smooth over frequency. What both plays hold cancels in E, so no
 * weight can comb it. Weights are the inverse of each play's own noise, by third octave and
 * passage; what does not fit beyond noise, such as a doubt of the map, counts against the other
 * play. A place where one play alone is damaged is taken from another.
 *
 * <p>Limits: two plays of one disc share the noise of its groove, and no merging lowers that; only
 * what differs between them sinks: dust, static, the electric path. Two pressings share their
 * recording only.
 */
package org.groovemend.plays;
