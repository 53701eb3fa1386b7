package org.groovemend.simulate;

/**
 * A wind instrument by addition of harmonics: a reed (odd harmonics lead) or soft brass (brightness
 * grows with loudness).
 *
 * @param evenShare level of even harmonics re odd ones, 0 to 1
 * @param brightness ratio of one harmonic to the one before when played at full level, 0 to below 1
 * @param attackSeconds time constant of the attack
 * @param vibratoCents peak deviation once a note has settled
 * @param breath level of wind noise re the tone
 */
record Wind(
    double evenShare, double brightness, double attackSeconds, double vibratoCents, double breath) {

  static final Wind REED = new Wind(0.22, 0.80, 0.009, 7, 0.012);
  static final Wind BRASS = new Wind(1.0, 0.74, 0.016, 4, 0.006);

  private static final double HIGHEST_HZ = 11_000;
  private static final int MOST_HARMONICS = 24;

  void add(
      double[] into, int start, int rate, double hz, double seconds, double level, Chance chance) {
    int harmonics = Math.min(MOST_HARMONICS, (int) (HIGHEST_HZ / hz));
    int frames = Math.min((int) (seconds * rate), into.length - start);
    double release = 0.03;
    double vibratoRate = chance.uniform(5.0, 5.6);
    double depth = StrictMath.pow(2, vibratoCents / 1200) - 1;
    Section wind = Section.lowPass(2_400, 1.2, rate);
    double phase = chance.uniform(0, 2 * Math.PI);
    double attackStep = 1 - StrictMath.exp(-1 / (attackSeconds * rate));
    double envelope = 0;
    double pitch = hz;
    for (int i = 0; i < frames; i++) {
      double t = i / (double) rate;
      if (i % 32 == 0) {
        double settled = Math.min(1, t / 0.25);
        pitch = hz * (1 + depth * settled * StrictMath.sin(2 * Math.PI * vibratoRate * t));
      }
      envelope += attackStep * (1 + 0.25 * StrictMath.exp(-t / 0.06) - envelope);
      double ending = Math.min(1, (seconds - t) / release);
      double loudness = envelope * ending;
      phase += 2 * Math.PI * pitch / rate;
      double sum = harmonicSum(phase, harmonics, brightness * (0.45 + 0.55 * loudness));
      double noise = breath * wind.next(chance.uniform(-1, 1));
      into[start + i] += level * loudness * (sum + noise);
    }
  }

  /** sum of r^(k-1) g_k sin(k phase) by the recurrence of multiple angles. */
  private double harmonicSum(double phase, int harmonics, double ratio) {
    double before = 0;
    double now = StrictMath.sin(phase);
    double twice = 2 * StrictMath.cos(phase);
    double weight = 1;
    double sum = 0;
    for (int k = 1; k <= harmonics; k++) {
      sum += (k % 2 == 0 ? evenShare : 1) * weight * now;
      weight *= ratio;
      double next = twice * now - before;
      before = now;
      now = next;
    }
    return sum * (1 - ratio) * 2;
  }
}
