package org.groovemend.audit;

import org.groovemend.resample.ConstantRatio;
import org.groovemend.resample.PositionMap;

/**
 * Output frames at equal distances, the first a part of a frame behind the input's first.
 *
 * @param ratio the distances
 * @param shift input frames, 0 or more
 */
record ShiftedRatio(ConstantRatio ratio, double shift) implements PositionMap {

  @Override
  public void positions(long first, int count, long[] whole, double[] fraction) {
    ratio.positions(first, count, whole, fraction);
    for (int i = 0; i < count; i++) {
      double part = fraction[i] + shift;
      double floor = Math.floor(part);
      whole[i] += (long) floor;
      fraction[i] = part - floor;
    }
  }

  @Override
  public double outputFrame(long position) {
    return ratio.outputFrame(position) - shift / ratio.steepest();
  }

  @Override
  public double steepest() {
    return ratio.steepest();
  }

  @Override
  public double gentlest() {
    return ratio.gentlest();
  }

  @Override
  public boolean identity() {
    return ratio.identity() && shift == 0;
  }
}
