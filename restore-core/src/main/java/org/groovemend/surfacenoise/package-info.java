/**
 * Lowers the noise of the groove by a stated amount, so that what remains is quieter groove noise
 * and nothing else.
 *
 * <p>The groove noise ({@link org.groovemend.surfacenoise.NoiseAnalyser}) is the mean power
 * spectrum of the groove-only stretch. The stage ({@link org.groovemend.surfacenoise.NoiseStage})
 * works on square-root Hann frames with three quarters overlap, whose squares sum to a constant, so
 * gain 1 gives the input back. The noise level is followed in the music within a few decibels
 * (LevelTracker, our own); rumble, which comes in surges, is taken as stronger than its mean by the
 * factor its own statistics show. The a-priori signal-to-noise ratio is decision-directed with
 * log-amplitude gains (Y. Ephraim and D. Malah, IEEE TASSP 32(6), 1984 and 33(2), 1985), run
 * forward and backward in time, so attacks do not lag (where the two disagree widely the lesser
 * rules, so nothing opens ahead of a hit), then refined in a second step (C. Plapous, C. Marro and
 * P. Scalart, IEEE TASLP 14(6), 2006). The gain never falls below the stated floor. Both channels
 * get the same gain, so nothing moves sideways.
 *
 * <p>All of it depends on frame numbers counted from the start of the side and on samples nearby,
 * never on segments or threads.
 *
 * <p>How the noise swings with the turning of the disc is learned over the whole side ({@link
 * org.groovemend.surfacenoise.SwingFinder}, our own).
 *
 * <p>Limits: between lead-in and run-out the spectrum is taken to change evenly; one swing for all
 * bands.
 */
package org.groovemend.surfacenoise;
