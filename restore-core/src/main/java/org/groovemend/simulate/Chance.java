package org.groovemend.simulate;

/**
 * A seeded source of numbers, the same on every machine and every Java version.
 *
 * <p>Integer generator: SplitMix64 (G. Steele, D. Lea, C. Flood, Fast splittable pseudorandom
 * number generators, OOPSLA 2014), own implementation because the library class does not promise
 * its normal deviates. Not for secrets. One instance per thread.
 */
final class Chance {

  private static final long GOLDEN_GAMMA = 0x9e3779b97f4a7c15L;

  private long state;
  private double spare;
  private boolean hasSpare;

  Chance(long seed) {
    this.state = seed;
  }

  /**
   * A generator of its own for one purpose, so that a change in one part leaves the others alone.
   */
  Chance fork(int purpose) {
    return new Chance(mix(state ^ mix(purpose * GOLDEN_GAMMA + 1)));
  }

  long nextLong() {
    state += GOLDEN_GAMMA;
    return mix(state);
  }

  /** Uniform in [0, 1), 53 bits. */
  double uniform() {
    return (nextLong() >>> 11) * 0x1p-53;
  }

  double uniform(double low, double high) {
    return low + (high - low) * uniform();
  }

  /** Uniform on a logarithmic scale; both ends positive. */
  double logUniform(double low, double high) {
    return low * StrictMath.exp(StrictMath.log(high / low) * uniform());
  }

  /** Standard normal deviate, polar method (G. Marsaglia and T. Bray, SIAM Review 6, 1964). */
  double gaussian() {
    if (hasSpare) {
      hasSpare = false;
      return spare;
    }
    double u;
    double v;
    double s;
    do {
      u = 2 * uniform() - 1;
      v = 2 * uniform() - 1;
      s = u * u + v * v;
    } while (s >= 1 || s == 0);
    double factor = Math.sqrt(-2 * StrictMath.log(s) / s);
    spare = v * factor;
    hasSpare = true;
    return u * factor;
  }

  /** Exponential deviate of mean 1: waiting time of a Poisson process of rate 1. */
  double exponential() {
    return -StrictMath.log(1 - uniform());
  }

  private static long mix(long z) {
    z = (z ^ (z >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }
}
