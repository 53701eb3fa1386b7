package org.groovemend.simulate;

/**
 * Plays the {@link Tune}: two winds, a plectrum instrument, bass and light percussion in a small
 * room.
 */
final class Band {

  /** Delays of the room's combs, seconds; without common factors (Schroeder 1962). */
  private static final double[] ROOM_SECONDS = {0.0297, 0.0371, 0.0411, 0.0437};

  private static final double ROOM_DECAY_SECONDS = 0.55;
  private static final double ROOM_LEVEL = 0.07;

  private final int rate;
  private final Chance chance;
  private final double[] out;

  private Band(int rate, int frames, Chance chance) {
    this.rate = rate;
    this.chance = chance;
    this.out = new double[frames];
  }

  /**
   * The tune, played from the beginning.
   *
   * @param rate samples a second
   * @param seconds at least the tune's length; the rest is the room dying away
   * @return mono, about full scale, not normalised
   */
  static double[] play(int rate, double seconds, Chance chance) {
    Band band = new Band(rate, (int) Math.round(seconds * rate), chance);
    band.melody(Tune.REED, Wind.REED, 0.62);
    band.melody(Tune.BRASS, Wind.BRASS, 0.52);
    band.rhythm();
    band.room();
    Section.highPass(45, 0.7, rate).process(band.out);
    Section.lowPass(10_000, 0.7, rate).process(band.out);
    return band.out;
  }

  private int frameOfBeat(double beat) {
    return (int) Math.round(beat * Tune.beatSeconds() * rate);
  }

  private void melody(String score, Wind wind, double level) {
    int third = 0;
    for (String token : score.trim().split("\\s+")) {
      int stroke = token.indexOf('/');
      int length = Integer.parseInt(token.substring(stroke + 1));
      int key = Tune.key(token.substring(0, stroke));
      if (key >= 0) {
        // players are late or early by a few milliseconds, and lean on the beat
        double early = 0.004 * Math.max(-2, Math.min(2, chance.gaussian()));
        int start = Math.max(0, frameOfBeat(third / 3.0) + (int) (early * rate));
        double held = length / 3.0 * Tune.beatSeconds() * (length == 1 ? 0.8 : 0.92);
        double stress = third % 3 == 0 ? 1.0 : 0.85;
        double loudness = level * stress * chance.uniform(0.9, 1.05);
        wind.add(out, start, rate, Tune.hz(key), held, loudness, chance);
      }
      third += length;
    }
  }

  private void rhythm() {
    for (int beat = 0; beat < Tune.BARS * Tune.BEATS_PER_BAR - 1; beat++) {
      String chord = Tune.CHORDS.get(beat / 2);
      boolean strong = beat % 2 == 0;
      if (strong) {
        int[] bass = Tune.bass(chord);
        int which = beat % 4 == 2 && Tune.CHORDS.get(beat / 2 - 1).equals(chord) ? 1 : 0;
        PluckedString.BASS.add(
            out, frameOfBeat(beat), rate, Tune.hz(bass[which]), 0.55, 0.62, chance);
      }
      strum(chord, beat, strong ? 0.05 : 0.085);
      percussion(beat, strong);
    }
    // the last chord, short, on the last beat but one's heel
    strum("F", Tune.BARS * Tune.BEATS_PER_BAR - 2 + 2 / 3.0, 0.12);
  }

  private void strum(String chord, double beat, double level) {
    int[] keys = Tune.voicing(chord);
    for (int i = 0; i < keys.length; i++) {
      int start = frameOfBeat(beat) + (int) (0.005 * i * rate);
      double loudness = level * chance.uniform(0.85, 1.1);
      PluckedString.PLECTRUM.add(out, start, rate, Tune.hz(keys[i]), 0.2, loudness, chance);
    }
  }

  private void percussion(int beat, boolean strong) {
    int start = frameOfBeat(beat);
    if (!strong) {
      Percussion.noise(out, start, rate, 1_400, 0.05, 0.07, chance);
    }
    int bar = beat / Tune.BEATS_PER_BAR;
    if (beat % 4 == 3 && bar % 2 == 1) {
      Percussion.block(out, start, rate, 0.16);
      Percussion.block(out, frameOfBeat(beat + 2 / 3.0), rate, 0.12);
    }
    if (beat % 16 == 0) {
      Percussion.noise(out, start, rate, 4_500, 0.12, 0.08, chance);
    }
  }

  /** Four feedback combs in parallel, darkened. */
  private void room() {
    double[] wet = new double[out.length];
    for (double delaySeconds : ROOM_SECONDS) {
      int delay = (int) Math.round(delaySeconds * rate);
      double feedback = StrictMath.pow(10, -3 * delaySeconds / ROOM_DECAY_SECONDS);
      double[] line = new double[delay];
      double dark = 0;
      for (int i = 0; i < out.length; i++) {
        int at = i % delay;
        double y = line[at];
        dark += 0.35 * (y - dark);
        line[at] = out[i] + feedback * dark;
        wet[i] += y;
      }
    }
    for (int i = 0; i < out.length; i++) {
      out[i] += ROOM_LEVEL * wet[i];
    }
  }
}
