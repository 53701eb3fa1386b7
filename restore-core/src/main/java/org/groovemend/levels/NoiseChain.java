package org.groovemend.levels;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.cartridge.LoadedCoil;
import org.groovemend.playback.PlaybackCurve;

/**
 * What each link leaves between music of 5 cm/s at 1 kHz and its own noise, 20 Hz to 20 kHz.
 *
 * @param links in the order of the signal
 * @param allDb all of them together
 * @param limiting the noisiest
 */
public record NoiseChain(List<Link> links, double allDb, Link limiting) {

  /** T = 293.15 K. */
  public static final double KELVIN = 293.15;

  /** Boltzmann's constant, J/K (SI, 2019). */
  private static final double BOLTZMANN = 1.380649e-23;

  private static final double LOW_HERTZ = 20;
  private static final double HIGH_HERTZ = 20_000;
  private static final int SLICES = 4000;

  public NoiseChain {
    links = List.copyOf(links);
  }

  /**
   * One link.
   *
   * @param name what it is
   * @param belowDb how far its noise lies under music of 5 cm/s
   */
  public record Link(String name, double belowDb) {}

  /** Root mean square of the thermal noise of a resistance, sqrt(4 k T R B); H. Nyquist, 1928. */
  public static double thermalVolts(double ohms, double bandHertz) {
    return Math.sqrt(4 * BOLTZMANN * KELVIN * ohms * bandHertz);
  }

  /** Thermal noise between the terminals of a loaded coil, behind a curve. */
  public static double thermalVolts(LoadedCoil coil, PlaybackCurve curve) {
    return Math.sqrt(
        integral(
            hertz ->
                coil.noiseDensity(hertz, KELVIN)
                    * curve.squaredMagnitude(hertz)
                    / curve.squaredMagnitude(1000)));
  }

  /**
   * By how much the curve lowers (below 0) or lifts the power of white noise, dB re unit gain at 1
   * kHz.
   */
  public static double whiteNoiseDb(PlaybackCurve curve) {
    double mean =
        integral(hertz -> curve.squaredMagnitude(hertz) / curve.squaredMagnitude(1000))
            / (HIGH_HERTZ - LOW_HERTZ);
    return 10 * StrictMath.log10(mean);
  }

  private static double integral(java.util.function.DoubleUnaryOperator density) {
    // midpoints of equal steps in the logarithm
    double step = StrictMath.log(HIGH_HERTZ / LOW_HERTZ) / SLICES;
    double sum = 0;
    for (int i = 0; i < SLICES; i++) {
      double hertz = LOW_HERTZ * StrictMath.exp((i + 0.5) * step);
      sum += density.applyAsDouble(hertz) * hertz * step;
    }
    return sum;
  }

  /**
   * Predicts.
   *
   * @param plan gain, pick-up, full scale and curve
   * @param coil the pick-up's coil and load
   * @param inputNoise of the preamplifier, volts per root hertz, 0 for none stated
   * @param dynamicRangeDb of the converter, full-scale sine over its noise in 20 kHz, white
   * @param grooveDb what the groove holds, music of 5 cm/s over its noise behind the curve
   */
  public static NoiseChain of(
      GainPlan plan, LoadedCoil coil, double inputNoise, double dynamicRangeDb, double grooveDb) {
    PlaybackCurve curve = plan.chain().curve();
    Level music = plan.chain().pickup().at(Pickup.REFERENCE_VELOCITY);
    double white = whiteNoiseDb(curve);
    List<Link> links = new ArrayList<>();
    links.add(new Link("groove", grooveDb));
    links.add(
        new Link(
            "thermal noise of coil and load", music.over(new Level(thermalVolts(coil, curve)))));
    if (inputNoise > 0) {
      double volts = inputNoise * Math.sqrt(HIGH_HERTZ - LOW_HERTZ);
      links.add(new Link("preamplifier", music.over(new Level(volts)) - white));
    }
    double atConverter = music.plus(plan.chain().gainDb()).over(plan.chain().fullScale());
    links.add(new Link("converter", dynamicRangeDb + atConverter - white));
    double power = 0;
    Link worst = links.get(0);
    for (Link link : links) {
      power += StrictMath.pow(10, -link.belowDb() / 10);
      worst = link.belowDb() < worst.belowDb() ? link : worst;
    }
    return new NoiseChain(links, -10 * StrictMath.log10(power), worst);
  }
}
