package org.groovemend.cartridge;

/**
 * A coil and its load: H(s) = Rl / (R + Rl) / (1 + s (R C + L / Rl) / (1 + R / Rl) + s^2 L C / (1 +
 * R / Rl)).
 *
 * @param henry inductance L of the coil, above 0 to 10
 * @param coilOhms its resistance R, above 0 to 100 000
 * @param loadOhms resistance Rl of the load, 10 to 10 million
 * @param farad capacitance C of cable and input, above 0 to 1 microfarad
 */
public record LoadedCoil(double henry, double coilOhms, double loadOhms, double farad) {

  private static final double REFERENCE_HERTZ = 1000;

  /** Boltzmann's constant, J/K (SI, 2019). */
  private static final double BOLTZMANN = 1.380649e-23;

  public LoadedCoil {
    require("inductance", henry * 1e3, 1e-3, 10_000, "mH");
    require("coil resistance", coilOhms, 0.1, 100_000, "ohm");
    require("load resistance", loadOhms, 10, 10_000_000, "ohm");
    require("capacitance", farad * 1e12, 1, 1e6, "pF");
  }

  private static void require(String name, double value, double least, double most, String unit) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          String.format(
              java.util.Locale.ROOT,
              "%s %.6g %s is outside %.6g to %.6g",
              name,
              value,
              unit,
              least,
              most));
    }
  }

  private double divisor() {
    return 1 + coilOhms / loadOhms;
  }

  /** Coefficient of s in the denominator, seconds. */
  public double first() {
    return (coilOhms * farad + henry / loadOhms) / divisor();
  }

  /** Coefficient of s squared, seconds squared. */
  public double second() {
    return henry * farad / divisor();
  }

  /** Natural frequency in hertz. */
  public double cornerHertz() {
    return 1 / (2 * Math.PI * Math.sqrt(second()));
  }

  public double quality() {
    return Math.sqrt(second()) / first();
  }

  /** Loss at 0 Hz into the load, in dB (negative). */
  public double lossDb() {
    return -20 * StrictMath.log10(divisor());
  }

  /** True if the response rises above that of low frequencies. */
  public boolean peaks() {
    return quality() > Math.sqrt(0.5);
  }

  /** Frequency of the peak, or NaN if there is none. */
  public double peakHertz() {
    double q = quality();
    return peaks() ? cornerHertz() * Math.sqrt(1 - 1 / (2 * q * q)) : Double.NaN;
  }

  /** Height of the peak re 0 Hz in dB, or NaN if there is none. */
  public double peakDb() {
    return peaks() ? gainDb(peakHertz()) - gainDb(0) : Double.NaN;
  }

  /** Squared magnitude re 0 Hz. */
  public double squaredMagnitude(double hertz) {
    double w = 2 * Math.PI * hertz;
    double re = 1 - w * w * second();
    double im = w * first();
    return 1 / (re * re + im * im);
  }

  /** Gain in dB re 1 kHz. */
  public double gainDb(double hertz) {
    return 10 * StrictMath.log10(squaredMagnitude(hertz) / squaredMagnitude(REFERENCE_HERTZ));
  }

  /**
   * Where the response is 3 dB (half the power) below 1 kHz for good, below a megahertz.
   *
   * @return in hertz
   */
  public double halfPowerHertz() {
    double low = Math.max(REFERENCE_HERTZ, peaks() ? peakHertz() : 0);
    double high = 1e6;
    for (int i = 0; i < 100; i++) {
      double middle = Math.sqrt(low * high);
      if (squaredMagnitude(middle) / squaredMagnitude(REFERENCE_HERTZ) > 0.5) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Real part of the impedance between the terminals at a frequency, in ohms. */
  public double resistiveOhms(double hertz) {
    double w = 2 * Math.PI * hertz;
    double square = coilOhms * coilOhms + w * w * henry * henry;
    double conductance = coilOhms / square + 1 / loadOhms;
    double susceptance = w * farad - w * henry / square;
    return conductance / (conductance * conductance + susceptance * susceptance);
  }

  /**
   * Thermal noise between the terminals, squared volts per hertz: 4 k T Re Z (H. Nyquist, 1928).
   *
   * @param kelvin temperature
   */
  public double noiseDensity(double hertz, double kelvin) {
    return 4 * BOLTZMANN * kelvin * resistiveOhms(hertz);
  }

  /** The same coil into another load. */
  public LoadedCoil into(double otherOhms, double otherFarad) {
    return new LoadedCoil(henry, coilOhms, otherOhms, otherFarad);
  }
}
