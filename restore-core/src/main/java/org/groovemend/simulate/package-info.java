/**
 * An invented worn side with a known truth, for the demonstration and for tests.
 *
 * <p>Nothing here is a recording: the music is made from oscillators and plucked-string loops, and
 * its place, people, band and label do not exist ({@link org.groovemend.simulate.DemoScenario}).
 *
 * <p>Damage is modelled where it arises. A pulse is a bump or dent in one groove wall, given in
 * micrometres ({@link org.groovemend.simulate.GroovePulse}). The groove passes the stylus at a
 * speed that follows from turntable speed and radius ({@link org.groovemend.simulate.Turntable}), a
 * velocity-sensing pickup answers with its coil inductance against the load ({@link
 * org.groovemend.simulate.Pickup}), the converter limits the band, and the transfer is flat: no
 * playback curve. Surface noise is roughness of the walls read at that same speed, so its band and
 * level sink toward the label and its strength turns with the disc ({@link
 * org.groovemend.simulate.SurfaceNoise}).
 *
 * <p>Channel words: channel 0 is the left groove wall, channel 1 the right one, wired so that a
 * lateral groove gives both the same sign. Levels are dB re full scale (amplitude 1.0); an RMS
 * level in dBFS is 20 log10 of the RMS value, so a full-scale sine stands at -3.01 dBFS.
 *
 * <p>Sources: groove speed v = 2 pi r n and the coil-and-load network are elementary; the noise law
 * S_v(f) = v S(f/v) follows from a wall slope that is random in space; plucked strings after K.
 * Karplus and A. Strong, Computer Music Journal 7(2), 1983, with the tuning of D. Jaffe and J.
 * Smith in the same issue; the room after M. Schroeder, J. Audio Eng. Soc. 10(3), 1962.
 *
 * <p>Limits: no tracing or tracking distortion, no stylus tip geometry, no wow, no crosstalk, no
 * wear locked to the music, no clipping. It is one model of the world; a treatment tuned on it
 * alone would be tuned to it.
 *
 * <p>Same seed, same bytes on every machine: {@code StrictMath} and an integer generator only.
 */
package org.groovemend.simulate;
