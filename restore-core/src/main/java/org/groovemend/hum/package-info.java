/**
 * Mains hum: lines at multiples of 50 or 60 Hz that sound all through a side.
 *
 * <p>The side is looked at in a low-rate copy. A path of the fundamental is sought by spectra and
 * dynamic programming; then the lines are fitted by weighted least squares in windows of one
 * second, every half second, and their complex amplitudes followed by a Kalman filter and smoother
 * (H. Rauch, F. Tung, C. Striebel, AIAA Journal 3(8), 1965). The common turning of their phases
 * corrects the path. A line is taken for hum if it is there all through the side, in the pauses as
 * under the music, which no note is. What is taken away is less than the estimate by its standard
 * error, so that no gap is left in the floor.
 *
 * <p>Limits: hum that begins or ends within the side is mostly left; a note held without a break
 * from the first to the last moment on a mains line is taken for hum; wow faster than about once a
 * second is not followed.
 */
package org.groovemend.hum;
