package org.groovemend.simulate;

/**
 * A pulse at a place of the side.
 *
 * @param kind for the truth
 * @param atFrame where the pulse begins; need not be whole, is rounded to an eighth of a frame
 * @param pulse its shape in the groove
 * @param left factor for the left wall, sign included
 * @param right factor for the right wall, sign included
 */
public record Impulse(
    DamageKind kind, double atFrame, GroovePulse pulse, double left, double right) {

  double wall(int channel) {
    return channel == 0 ? left : right;
  }
}
