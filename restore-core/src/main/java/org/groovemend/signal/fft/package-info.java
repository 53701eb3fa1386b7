/** The only door to the FFT library. */
package org.groovemend.signal.fft;
