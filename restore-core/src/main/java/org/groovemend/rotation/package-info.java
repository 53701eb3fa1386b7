/**
 * What repeats once a turn: the speed of the turntable, and the scratches of the disc, from nothing
 * but the places that were repaired.
 *
 * <p>A scratch crosses turn after turn of the groove, with a nearly constant shift from one turn to
 * the next. {@link org.groovemend.rotation.TickGatherer} takes the repaired places and keeps the
 * strongest of every second; {@link org.groovemend.rotation.RotationSearch} looks for rows of ticks
 * at equal distances among them and weighs these rows against what ticks thrown down at random with
 * the same local rate would show (a Poisson process: a given place has a tick within e seconds with
 * probability 1 - exp(-2 e r), at most 2 e r, r ticks a second). {@link
 * org.groovemend.rotation.RotationFinding} is the answer.
 *
 * <p>Method: ours; the formula is the elementary one of the Poisson process. Nominal speeds: see
 * {@link org.groovemend.rotation.DiscSpeed}.
 *
 * <p>Limits. Music in strict time repeats as evenly as a disc turns: at 78.26 or 156.5 beats a
 * minute it is locked to a 78, and false repairs on its beats look like a scratch. A speed found
 * here is evidence, no proof. Angles count from the first frame of the file; how far two places are
 * apart in angle is only as certain as the period: an error of 0.1 % is a third of a degree after
 * one turn and a whole turn after a thousand. Hidden by very dense damage, scratches are not found.
 */
package org.groovemend.rotation;
