package org.groovemend.simulate;

/**
 * A voice near the microphone that says nothing: glottal pulses with a sharp end (G. Fant and
 * others, STL-QPSR 26(4), 1985, in a simple form) through four formants (Klatt 1980), plosives with
 * a burst of noise, a breath blast on the lips, hiss of s, and creak at the end of phrases, where
 * single pulses stand far apart.
 */
final class CloseSpeech {
  /** Formants of invented vowels, Hz. */
  private static final double[][] VOWELS = {
    {720, 1_240, 2_450, 3_500},
    {300, 2_250, 2_950, 3_650},
    {340, 820, 2_300, 3_400},
    {520, 1_820, 2_500, 3_550},
    {470, 950, 2_400, 3_450}
  };

  private static final double[] BANDWIDTHS = {70, 100, 160, 250};

  /** Middle of the noise of p, t, k, Hz. */
  private static final double[] BURSTS = {900, 4_600, 2_000};

  private CloseSpeech() {}

  static void play(StereoRoom room, int rate, int frames, Chance chance) {
    double[] voice = new double[frames];
    double at = 0.1;
    int syllable = 0;
    while ((at + 0.5) * rate < frames) {
      int sound = (int) chance.uniform(0, 4);
      if (sound < 3) {
        plosive(voice, (int) (at * rate), rate, sound, chance);
        at += chance.uniform(0.015, 0.04);
      } else {
        hiss(voice, (int) (at * rate), rate, chance);
        at += 0.09;
      }
      boolean last = syllable % 5 == 4;
      double seconds = last ? 0.32 : chance.uniform(0.09, 0.17);
      int vowel = (int) chance.uniform(0, VOWELS.length);
      vowel(voice, (int) (at * rate), rate, vowel, seconds, last, chance);
      at += seconds + (last ? 0.22 : chance.uniform(0.04, 0.08));
      syllable++;
    }
    room.add(voice, 0);
  }

  private static void vowel(
      double[] into, int start, int rate, int which, double seconds, boolean creak, Chance chance) {
    double[] to = VOWELS[which];
    double[] from = VOWELS[(which + 3) % VOWELS.length];
    Resonator[] tract = new Resonator[4];
    for (int k = 0; k < 4; k++) {
      tract[k] = new Resonator(from[k], BANDWIDTHS[k], rate);
    }
    Section mouth = Section.highPass(90, 0.7, rate);
    int count = Math.min(into.length - start, (int) (seconds * rate));
    double pitch = chance.uniform(98, 125);
    double period = rate / pitch;
    double shimmer = 1;
    double age = 0;
    for (int i = 0; i < count; i++) {
      double t = i / (double) rate;
      double share = t / seconds;
      if (i % 64 == 0) {
        double glide = Math.min(1, t / 0.05);
        for (int k = 0; k < 4; k++) {
          tract[k].tune(from[k] + (to[k] - from[k]) * glide, BANDWIDTHS[k]);
        }
      }
      age++;
      if (age >= period) {
        age -= period;
        boolean creaks = creak && share > 0.45;
        double slow = creaks ? chance.uniform(2, 3.6) : 1 + 0.012 * chance.gaussian();
        period = rate / pitch * slow;
        shimmer = (creaks ? 0.8 : 1) * (1 + 0.05 * chance.gaussian());
      }
      double loud = Math.min(1, t / 0.01) * Math.min(1, (seconds - t) / 0.02);
      double flow = glottis(age / rate) * shimmer + 0.01 * chance.gaussian();
      double y = 0;
      for (int k = 0; k < 4; k++) {
        // formants side by side with alternating signs, as those of a tube in a row have
        y += (k % 2 == 0 ? 1 : -1) * tract[k].next(flow) / (1 + 0.5 * k);
      }
      into[start + i] += loud * mouth.next(y);
    }
  }

  /** Derivative of the flow: a slow half wave, cut off at its steepest and back within 0.2 ms. */
  private static double glottis(double t) {
    double open = 0.0045;
    if (t < open) {
      double x = t / open;
      return 0.35 * StrictMath.sin(1.35 * Math.PI * x) * x - (x > 0.74 ? 3.2 * (x - 0.74) : 0);
    }
    return -1.1 * StrictMath.exp(-(t - open) / 0.0002);
  }

  private static void plosive(double[] into, int start, int rate, int which, Chance chance) {
    Resonator front = new Resonator(BURSTS[which], 0.7 * BURSTS[which], rate);
    Section edge = Section.highPass(1_500, 0.7, rate);
    double fall = chance.uniform(0.002, 0.006);
    int count = Math.min(into.length - start, (int) (0.1 * rate));
    for (int i = 0; i < count; i++) {
      double t = i / (double) rate;
      double gate = 1 - StrictMath.exp(-t / 0.00015);
      double burst = gate * StrictMath.exp(-t / fall) * chance.gaussian();
      into[start + i] += 1.6 * front.next(burst) + 0.1 * edge.next(burst);
      if (which == 0) {
        // the blast of p on a near microphone
        double blast = (1 - StrictMath.exp(-t / 0.003)) * StrictMath.exp(-t / 0.014);
        into[start + i] += 0.9 * blast * StrictMath.cos(2 * Math.PI * 38 * t);
      }
    }
  }

  private static void hiss(double[] into, int start, int rate, Chance chance) {
    Section high = Section.highPass(5_000, 1.2, rate);
    double seconds = 0.1;
    for (int i = 0; i < Math.min(into.length - start, (int) (seconds * rate)); i++) {
      double x = i / (seconds * rate);
      into[start + i] += 0.12 * StrictMath.sin(Math.PI * x) * high.next(chance.gaussian());
    }
  }
}
