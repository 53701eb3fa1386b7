package org.groovemend.measure;

/** Amplitude and power ratios in decibels. */
public final class Decibels {

  private Decibels() {}

  /** 20 log10 of a magnitude; negative infinity for 0. */
  public static double ofAmplitude(double magnitude) {
    return 20 * StrictMath.log10(magnitude);
  }

  /** 10 log10 of a power; negative infinity for 0. */
  public static double ofPower(double power) {
    return 10 * StrictMath.log10(power);
  }
}
