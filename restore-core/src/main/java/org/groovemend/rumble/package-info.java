/**
 * Rumble, warp and constant offset: what lies below the music.
 *
 * <p>Bearing and cutter rumble (some 5 to 60 Hz, mostly vertical), warp and tilt (once a turn and
 * its multiples), the resonance of the arm (8 to 12 Hz) and the offset of converters are taken out
 * by two filters without phase: one for the lateral part, half the sum of the walls, and one with a
 * higher corner for the vertical part, half their difference. Each has the magnitude of a
 * Butterworth high-pass run forwards and backwards (S. Butterworth, 1930), in closed form. What is
 * taken away is the low band itself, made at a low rate with symmetric filters, so nothing else is
 * touched: no frequency is delayed, and the music above loses what the formula says. The price of
 * having no phase is that a step rings before as after, below hearing.
 *
 * <p>The vertical bass is measured first and left if it may be music ({@link
 * org.groovemend.rumble.RumbleAnalyser}).
 *
 * <p>Limits: rumble above the corners stays; lateral rumble between the corners stays, as the
 * lateral bass is there too; organ notes below the corner go; the amplitude of what remains is not
 * changed where a warp has changed the tracking itself.
 */
package org.groovemend.rumble;
