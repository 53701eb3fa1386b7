package org.groovemend.audit;

/**
 * Which signals of original and derivative are followed to lay one on the other.
 *
 * @param original 0 or 1: a channel, 2: half the sum, 3: half the difference
 * @param derivative the same
 */
record Pairing(int original, int derivative) {

  /** What can be paired of so many channels; the plain ones first. */
  static Pairing[] of(int original, int derivative) {
    if (original == 1 && derivative == 1) {
      return new Pairing[] {new Pairing(0, 0)};
    }
    if (original == 1) {
      return new Pairing[] {new Pairing(0, 0), new Pairing(0, 1)};
    }
    if (derivative == 1) {
      return new Pairing[] {
        new Pairing(0, 0), new Pairing(1, 0), new Pairing(2, 0), new Pairing(3, 0)
      };
    }
    return new Pairing[] {
      new Pairing(0, 0), new Pairing(1, 1), new Pairing(1, 0), new Pairing(0, 1), new Pairing(2, 0)
    };
  }

  /** Writes the signal of a kind to {@code out}. */
  static void take(int kind, double[][] x, int count, double[] out) {
    switch (kind) {
      case 2, 3 -> {
        double sign = kind == 2 ? 0.5 : -0.5;
        for (int i = 0; i < count; i++) {
          out[i] = 0.5 * x[0][i] + sign * x[1][i];
        }
      }
      default -> System.arraycopy(x[kind], 0, out, 0, count);
    }
  }
}
