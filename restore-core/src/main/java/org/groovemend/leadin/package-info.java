/**
 * Finds the groove-only stretch after the needle drop and before the music, and the like one behind
 * the music.
 *
 * <p>The side is read once in short blocks; four blocks make a slice (about 0.09 s) with its mean
 * power spectrum, blocks that stand out (clicks, crackle) left out of it. Only the first and the
 * last minute of slices are kept, so memory does not grow with the side. A stretch is taken as
 * groove alone if it is not silent, stays alike from slice to slice in every band of the spectrum
 * within what chance and the turning of the disc allow, has no tones (mains hum apart), lasts long
 * enough, and nothing in the side is much quieter. Anything doubtful is refused with the reason: a
 * wrong noise spectrum does more harm than none.
 *
 * <p>The tests and limits are our own, set on groove noise that is modelled (level changing by 25 %
 * of amplitude once and 10 % twice in a turn); no published method is followed. Limits: groove
 * noise under 0.5 s, noise that itself drifts quickly, and steady noise-like sound at the start of
 * the programme (applause, wind, surf) that nothing quieter contradicts: this is taken for groove.
 */
package org.groovemend.leadin;
