package org.groovemend.simulate;

/**
 * A velocity-sensing pickup coil against its load: the second-order low-pass that makes ticks ring.
 *
 * <p>H(s) = D / (1 + s/(w0 Q) + (s/w0)^2) with D = Rl/(R + Rl), w0 = sqrt((1 + R/Rl)/(L C)), Q =
 * sqrt(L C (1 + R/Rl))/(R C + L/Rl): series coil L, R into parallel Rl, C. The loss D is left out
 * of {@link #section}: the transfer gain takes it up. No core loss and no mechanical resonance.
 *
 * @param inductanceHenry above 0
 * @param resistanceOhm of the coil, at least 0
 * @param loadOhm above 0
 * @param capacitanceFarad of cable and input together, above 0
 */
public record Pickup(
    double inductanceHenry, double resistanceOhm, double loadOhm, double capacitanceFarad) {

  public Pickup {
    if (!(inductanceHenry > 0) || !(loadOhm > 0) || !(capacitanceFarad > 0)) {
      throw new IllegalArgumentException(
          "inductance, load and capacitance must be above 0, but are "
              + inductanceHenry
              + " H, "
              + loadOhm
              + " ohm and "
              + capacitanceFarad
              + " F");
    }
    if (!(resistanceOhm >= 0)) {
      throw new IllegalArgumentException("resistanceOhm " + resistanceOhm + " is below 0");
    }
  }

  /**
   * Moving-magnet order of size: 400 mH, 700 ohm, 47 kilohm, 250 pF (common practice, no source).
   */
  public static Pickup ordinary() {
    return new Pickup(0.4, 700, 47_000, 250e-12);
  }

  public double resonanceHz() {
    return Math.sqrt((1 + resistanceOhm / loadOhm) / (inductanceHenry * capacitanceFarad))
        / (2 * Math.PI);
  }

  public double q() {
    return Math.sqrt(inductanceHenry * capacitanceFarad * (1 + resistanceOhm / loadOhm))
        / (resistanceOhm * capacitanceFarad + inductanceHenry / loadOhm);
  }

  /** Loss at 0 Hz, dB, at most 0. */
  public double directLossDb() {
    return 20 * StrictMath.log10(loadOhm / (resistanceOhm + loadOhm));
  }

  /** Gain at a frequency relative to 0 Hz, of the analogue network. */
  public double gain(double frequencyHz) {
    double x = frequencyHz / resonanceHz();
    double real = 1 - x * x;
    double imaginary = x / q();
    return 1 / Math.sqrt(real * real + imaginary * imaginary);
  }

  /**
   * The network as a filter; passes everything if its resonance lies at or above 0.45 of the rate.
   */
  Section section(double rateHz) {
    if (resonanceHz() >= 0.45 * rateHz) {
      return Section.through();
    }
    return Section.lowPass(resonanceHz(), q(), rateHz);
  }
}
