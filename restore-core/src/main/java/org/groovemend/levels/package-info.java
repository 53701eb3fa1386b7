/**
 * Levels from groove to file: conversions between volts, dBV, dBu, dBFS and groove velocity, room
 * for music and clicks before and behind a playback curve, and the noise of every link of the
 * chain.
 *
 * <p>0 dBV is 1 V, 0 dBu is sqrt(0.6) V = 0.7746 V (1 mW in 600 ohm), both root mean square. 0 dBFS
 * is a sine whose peaks reach full scale (AES17). Velocity and voltage of a pick-up go together:
 * both root mean square or both peak. Checked against fixtures/reference/levels and the facts named
 * in {@code LevelsReferenceTest}.
 */
package org.groovemend.levels;
