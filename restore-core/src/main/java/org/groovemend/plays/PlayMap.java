package org.groovemend.plays;

import org.groovemend.resample.PositionMap;

/**
 * Where in another play each frame of the reference lies: at {@code offset + ratio * (t +
 * delay(t))} seconds, t seconds of the reference. Not for several threads at once.
 */
final class PlayMap implements PositionMap {
  private final double offset;
  private final double ratio;
  private final SmoothCurve delay;
  private final double referenceHz;
  private final double playHz;
  private final long pad;
  private final double steepest;
  private final double gentlest;

  /**
   * @param pad frames of silence that stand before the play, so that no position is negative
   */
  PlayMap(
      double offset, double ratio, SmoothCurve delay, double referenceHz, double playHz, long pad) {
    this.offset = offset;
    this.ratio = ratio;
    this.delay = delay;
    this.referenceHz = referenceHz;
    this.playHz = playHz;
    this.pad = pad;
    double step = ratio * playHz / referenceHz;
    double sway = Math.min(0.5, delay.steepest());
    steepest = step * (1 + sway) * (1 + 1e-9);
    gentlest = step * (1 - sway) * (1 - 1e-9);
  }

  /** Moment of the play, in its own seconds from its own beginning. */
  double playSeconds(double seconds) {
    return offset + ratio * (seconds + delay.value(seconds));
  }

  @Override
  public void positions(long first, int count, long[] whole, double[] fraction) {
    for (int i = 0; i < count; i++) {
      double at = playSeconds((first + i) / referenceHz) * playHz + pad;
      double floor = Math.floor(at);
      whole[i] = (long) floor;
      fraction[i] = at - floor;
    }
  }

  @Override
  public double outputFrame(long position) {
    double moment = ((position - pad) / playHz - offset) / ratio;
    double seconds = moment;
    for (int i = 0; i < 8; i++) {
      seconds = moment - delay.value(seconds);
    }
    return seconds * referenceHz;
  }

  @Override
  public double steepest() {
    return steepest;
  }

  @Override
  public double gentlest() {
    return gentlest;
  }

  @Override
  public boolean identity() {
    return false;
  }
}
