/**
 * Sound at other moments than those it was sampled at: another rate, another speed, a speed that
 * changes on the way.
 *
 * <p>A {@link org.groovemend.resample.PositionMap} says where in the input each output frame lies;
 * it may be any monotone function. {@link org.groovemend.resample.Resampled} is the sound there,
 * read like any side.
 *
 * <p>Method: band-limited interpolation (J. O. Smith and P. Gossett, "A flexible sampling-rate
 * conversion method", ICASSP 1984) in two steps. The side is limited to the lower of the two
 * bandwidths and brought to twice its rate at once, by a windowed sinc applied as a fast
 * convolution in blocks that stand at fixed input frames (overlap-save: T. Stockham, AFIPS 1966).
 * Between its images and its band there is now so much room that a windowed sinc of {@value
 * org.groovemend.resample.Kernel#TAPS} taps, at any phase, gives the value between two frames.
 * Phases are taken from a table by a cubic through four of them. Both windows are Kaiser's ({@link
 * org.groovemend.signal.window.KaiserLowPass}).
 *
 * <p>Linear phase, no delay: a pulse stays where it is. The band is kept to {@value
 * org.groovemend.resample.BandLimit#KEPT} of the lower half rate (20 kHz at 44.1 kHz) and gone,
 * {@value org.groovemend.resample.BandLimit#STOP_DB} dB down by design, at the half rate itself.
 * Outside the input there is silence. Every output frame belongs to one block by its position, so
 * bytes do not depend on how much is read at a time, nor on threads.
 *
 * <p>Limits: the band follows the steepest place of the map, for the whole side. Words that
 * overload between frames may come out above full scale.
 */
package org.groovemend.resample;
