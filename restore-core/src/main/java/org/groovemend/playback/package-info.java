/**
 * The playback curve with three time constants as a digital filter, and its stable inverse.
 *
 * <p>Curve: H(s) = (1 + s T2) / ((1 + s T1)(1 + s T3)) with 3180, 318 and 75 microseconds (IEC
 * 60098), unit gain at 1 kHz. The IEC addition of 7950 microseconds is no part of it: it belongs to
 * replay only. Realisation: poles and zero mapped by z = exp(-1 / (T fs)); the rest of the
 * magnitude by a short minimum-phase polynomial fitted to the curve from 20 Hz to 0.45 fs. The
 * polynomial's zeros lie well inside the unit circle, so the inverse filter is stable; a bilinear
 * design has none (its zero at z = -1).
 *
 * <p>Limits: magnitude within the figures of the tests; the phase is that of the minimum-phase
 * digital filter, which differs from the analogue network by a nearly constant delay below one
 * sample. Speed errors are not corrected.
 */
package org.groovemend.playback;
