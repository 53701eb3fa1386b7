/**
 * Playback curves as digital filters, their stable inverses, the table of historical ones, and the
 * stage that applies or undoes them.
 *
 * <p>Curve: H(s) = (1 + s T2) / ((1 + s T1)(1 + s T3)), such as 3180, 318 and 75 microseconds (IEC
 * 60098), unit gain at 1 kHz; any term may be missing. Realisation: poles and zeros mapped by z =
 * exp(-1 / (T fs)); the rest of the magnitude by a short minimum-phase polynomial fitted to the
 * curve from 20 Hz to 0.45 fs. The polynomial's zeros lie well inside the unit circle, so the
 * inverse filter is stable; a bilinear design has none (its zero at z = -1).
 *
 * <p>A curve given by turnover and roll-off follows the roll-off: loss of the treble section alone
 * at 10 kHz. A bass without shelf, and a high-pass, end at 1 Hz (0.011 dB at 20 Hz): nothing else
 * could be undone.
 *
 * <p>Limits: magnitude and phase within the figures of the tests and of {@code
 * docs/explanation/curves.md}; the phase is that of the minimum-phase digital filter, which leads
 * the analogue network by a nearly constant 0.4 of a sample. A curve acts on the time it was made
 * in: for a disc captured at another speed the constants are scaled. Which curve is right is never
 * decided here.
 */
package org.groovemend.playback;
