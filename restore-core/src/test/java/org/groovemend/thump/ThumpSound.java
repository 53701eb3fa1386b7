package org.groovemend.thump;

/** A groove's break as heard: a soft beginning of 1 ms, then a ring that falls in pitch. */
final class ThumpSound {
  private ThumpSound() {}

  static void add(
      double[] x,
      int rate,
      int at,
      double size,
      double startHz,
      double endHz,
      double glideSeconds,
      double decaySeconds) {
    double phase = 0.4;
    for (int i = 0; at + i < x.length && i < rate * 0.35; i++) {
      double t = (double) i / rate;
      double hz = endHz + (startHz - endHz) * Math.exp(-t / glideSeconds);
      phase += 2 * Math.PI * hz / rate;
      x[at + i] +=
          size * Math.exp(-t / decaySeconds) * (1 - Math.exp(-t / 0.001)) * Math.sin(phase);
    }
  }
}
