package org.groovemend.evaluate;

import org.groovemend.simulate.DamageKind;

/**
 * Samples known to be damaged.
 *
 * @param kind of damage
 * @param channel 0 based
 * @param start first frame of the copy
 * @param end one past the last
 * @param prominence largest prediction error that the damage makes, over the robust standard
 *     deviation of the sound's own about it ({@link Prominence})
 */
public record TrueRange(DamageKind kind, int channel, int start, int end, double prominence) {
  /** Prominence from which damage must be found. */
  public static final double PROMINENT = 8;

  public boolean prominent() {
    return prominence > PROMINENT;
  }
}
