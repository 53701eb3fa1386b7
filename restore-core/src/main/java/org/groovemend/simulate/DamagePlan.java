package org.groovemend.simulate;

import java.util.ArrayList;
import java.util.List;

/**
 * Where impulses fall: at random over the side, or once a turn along a scratch.
 *
 * <p>Sizes of pulses are invented but of the order the trade reports: lengths of some tens to some
 * hundreds of micrometres (about 30 microseconds to half a millisecond at a coarse groove's speed).
 */
public final class DamagePlan {

  private final int sampleRateHz;
  private final Turntable turntable;
  private final Chance chance;

  public DamagePlan(int sampleRateHz, Turntable turntable, long seed) {
    this.sampleRateHz = sampleRateHz;
    this.turntable = turntable;
    this.chance = new Chance(seed);
  }

  /**
   * Impulses at random places (Poisson process), each on its own part of the two walls.
   *
   * @param kind for the truth
   * @param fromSeconds begin
   * @param toSeconds end
   * @param perSecond mean rate
   * @param lowMetres smallest height; heights spread evenly on a logarithmic scale
   * @param highMetres largest height
   */
  public List<Impulse> scattered(
      DamageKind kind,
      double fromSeconds,
      double toSeconds,
      double perSecond,
      double lowMetres,
      double highMetres) {
    List<Impulse> list = new ArrayList<>();
    double t = fromSeconds;
    while (true) {
      t += chance.exponential() / perSecond;
      if (t >= toSeconds) {
        return list;
      }
      double height = chance.logUniform(lowMetres, highMetres);
      double rise = chance.logUniform(20e-6, 90e-6);
      GroovePulse pulse = new GroovePulse(height, rise, rise * chance.uniform(1, 2.5));
      // a direction in the plane across the groove: lateral, vertical, one wall or between
      double direction = chance.uniform(0, 2 * Math.PI);
      list.add(
          new Impulse(
              kind, t * sampleRateHz, pulse, StrictMath.cos(direction), StrictMath.sin(direction)));
    }
  }

  /**
   * One scratch: the same damage once a turn, a little different each time.
   *
   * @param fromSeconds the stylus meets it at or after this time
   * @param toSeconds and no longer after this one
   * @param angle 0 to 1 of a turn at which the first crossing lies
   * @param anglePerTurn how far an oblique scratch moves on in a turn, in turns; 0 for a radial one
   * @param heightMetres mean height
   */
  public List<Impulse> scratch(
      double fromSeconds,
      double toSeconds,
      double angle,
      double anglePerTurn,
      double heightMetres) {
    List<Impulse> list = new ArrayList<>();
    double rise = chance.uniform(30e-6, 60e-6);
    double lean = chance.uniform(1.2, 2.2);
    double direction = chance.uniform(0, 2 * Math.PI);
    double first = Math.ceil(turntable.turns(fromSeconds) - angle);
    for (int k = 0; ; k++) {
      double t = (first + angle + k * (1 + anglePerTurn)) * turntable.turnSeconds();
      if (t >= toSeconds) {
        return list;
      }
      double height = heightMetres * StrictMath.exp(0.25 * chance.gaussian());
      double stretch = StrictMath.exp(0.1 * chance.gaussian());
      GroovePulse pulse = new GroovePulse(height, rise * stretch, rise * lean * stretch);
      double turned = direction + 0.15 * chance.gaussian();
      list.add(
          new Impulse(
              DamageKind.SCRATCH,
              t * sampleRateHz,
              pulse,
              StrictMath.cos(turned),
              StrictMath.sin(turned)));
    }
  }
}
