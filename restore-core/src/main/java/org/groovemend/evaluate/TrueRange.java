package org.groovemend.evaluate;

import org.groovemend.simulate.DamageKind;

/**
 * Samples known to be damaged.
 *
 * @param kind of damage
 * @param channel 0 based
 * @param start first frame of the copy
 * @param end one past the last
 * @param prominence peak of the damage over the robust standard deviation of the sound's prediction
 *     error about it ({@link Prominence})
 */
public record TrueRange(DamageKind kind, int channel, int start, int end, double prominence) {
  /** Prominence above which damage is expected to be found. */
  public static final double PROMINENT = 8;

  public boolean prominent() {
    return prominence > PROMINENT;
  }
}
