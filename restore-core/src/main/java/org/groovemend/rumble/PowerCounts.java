package org.groovemend.rumble;

/**
 * Counts powers in thirty-seconds of an octave, so that any share of them can be told without
 * keeping them. A gain by a power of two moves every count alike.
 */
final class PowerCounts {
  private static final int PER_OCTAVE = 32;
  private static final int LOWEST = -250;
  private static final int HIGHEST = 50;

  private final long[] counts = new long[(HIGHEST - LOWEST) * PER_OCTAVE];
  private long total;

  /** Zeros and powers below 1e-75 are not counted. */
  void add(double power) {
    int octave = Math.getExponent(power);
    if (!(power > 0) || octave < LOWEST) {
      return;
    }
    int within = (int) ((power / Math.scalb(1.0, octave) - 1) * PER_OCTAVE);
    counts[Math.min(counts.length - 1, (octave - LOWEST) * PER_OCTAVE + within)]++;
    total++;
  }

  boolean empty() {
    return total == 0;
  }

  /** The power that a share of the counted ones does not exceed, to within 3 %; 0 if empty. */
  double at(double share) {
    long rank = Math.max(1, (long) Math.ceil(share * total));
    long seen = 0;
    for (int i = 0; i < counts.length && total > 0; i++) {
      seen += counts[i];
      if (seen >= rank) {
        double within = 1 + (i % PER_OCTAVE + 0.5) / PER_OCTAVE;
        return Math.scalb(within, i / PER_OCTAVE + LOWEST);
      }
    }
    return 0;
  }
}
