/**
 * Window functions for short-time spectra.
 *
 * <p>Formulae and figures of merit: F. J. Harris, "On the use of windows for harmonic analysis with
 * the discrete Fourier transform", Proc. IEEE 66(1), 1978, pages 51 to 83. Only the windows the
 * toolkit uses or checks against are here.
 */
package org.groovemend.signal.window;
