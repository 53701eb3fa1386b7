/**
 * The electrical part of a magnetic pick-up: its coil into the load of cable and preamplifier.
 *
 * <p>Model: inductance and resistance in series, load resistance and capacitance in parallel behind
 * them; a low-pass of second order that may peak in the treble. Checked against worked examples
 * (fixtures/reference/cartridge).
 *
 * <p>Limits: ideal coil, without core loss; the mechanical resonance of the stylus tip, which
 * makers balance against this one, is not in it.
 */
package org.groovemend.cartridge;
