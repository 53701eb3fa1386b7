package org.groovemend.resample;

import java.math.BigDecimal;
import java.math.MathContext;

/** Output frames at equal distances, the first at input frame 0. */
public final class ConstantRatio implements PositionMap {
  private final double step;

  /** What the nearest double leaves of the step. */
  private final double rest;

  private ConstantRatio(BigDecimal exact) {
    step = exact.doubleValue();
    rest = exact.subtract(new BigDecimal(step)).doubleValue();
    if (!(step > 0) || !Double.isFinite(step)) {
      throw new IllegalArgumentException("a step of " + exact + " input frames");
    }
  }

  /**
   * A change of rate, of speed, or both.
   *
   * @param inputHz rate of the input
   * @param outputHz rate of the output
   * @param factor how many times as fast the input is to run; above 1 raises the pitch
   */
  public static ConstantRatio of(int inputHz, int outputHz, double factor) {
    return new ConstantRatio(
        new BigDecimal(factor)
            .multiply(BigDecimal.valueOf(inputHz))
            .divide(BigDecimal.valueOf(outputHz), new MathContext(50)));
  }

  @Override
  public void positions(long first, int count, long[] whole, double[] fraction) {
    for (int i = 0; i < count; i++) {
      double n = first + i;
      double product = n * step;
      double floor = Math.floor(product);
      // the product without its rounding error, and the digits that step itself lacks
      double part = product - floor + (Math.fma(n, step, -product) + n * rest);
      // a part a hair outside 0 to 1 stays with its frame, so that positions never go back
      whole[i] = (long) floor;
      if (part < 0) {
        whole[i]--;
        part += 1;
      }
      fraction[i] = Math.min(1, part);
    }
  }

  @Override
  public double outputFrame(long position) {
    return position / step;
  }

  @Override
  public double steepest() {
    return step;
  }

  @Override
  public double gentlest() {
    return step;
  }

  @Override
  public boolean identity() {
    return step == 1 && rest == 0;
  }
}
