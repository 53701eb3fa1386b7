package org.groovemend.audit;

/**
 * A passage of the derivative that was found in the original.
 *
 * @param frame first of it, derivative
 * @param lag original minus derivative, frames at the derivative's rate and speed
 * @param height peak over the rest of the correlation
 * @param opposed upside down
 */
record Passage(long frame, long lag, double height, boolean opposed) {}
