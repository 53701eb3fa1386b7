package org.groovemend.simulate;

/**
 * Undamaged sound that looks like damage: what a repair must leave alone. Invented and synthesised,
 * stereo, with the hiss of a studio; same seed, same bytes.
 */
public enum RestraintPiece {
  APPLAUSE("applause", 0.18, 0.9, Applause::play),
  CASTANETS("castanets", 0.12, 0.5, Castanets::play),
  HARPSICHORD("harpsichord", 0.12, 0.8, Harpsichord::play),
  MUTED_BRASS("muted brass", 0.1, 0.5, MutedBrass::play),
  CLOSE_SPEECH("close speech", 0.04, 0.3, CloseSpeech::play),
  DRUM_KIT("drum kit", 0.1, 0.4, DrumKit::play);

  /** What microphones and a cutter's amplifier pass. */
  private static final double HIGHEST_HZ = 17_500;

  private static final double LOWEST_HZ = 28;

  /** Root mean square of the hiss in each channel re a peak of 1: about -70 dB. */
  private static final double HISS = 3.2e-4;

  private final String words;
  private final double echo;
  private final double decaySeconds;
  private final Player player;

  RestraintPiece(String words, double echo, double decaySeconds, Player player) {
    this.words = words;
    this.echo = echo;
    this.decaySeconds = decaySeconds;
    this.player = player;
  }

  @FunctionalInterface
  private interface Player {
    void play(StereoRoom room, int rate, int frames, Chance chance);
  }

  /** Name for tables. */
  public String words() {
    return words;
  }

  /**
   * Plays it.
   *
   * @param rate samples a second, 36,000 or more
   * @param seconds a second or more
   * @param seed moves the players' liberties, hiss and noise
   * @return planar, two channels, peak 1
   */
  public double[][] play(int rate, double seconds, long seed) {
    if (rate < 36_000 || !(seconds >= 1)) {
      throw new IllegalArgumentException(rate + " Hz, " + seconds + " s: too low or too short");
    }
    int frames = (int) Math.round(seconds * rate);
    Chance chance = new Chance(seed).fork(100 + ordinal());
    StereoRoom room = new StereoRoom(rate, frames, echo, decaySeconds);
    player.play(room, rate, frames, chance.fork(1));
    double[][] x = room.sound();
    double peak = 0;
    for (double[] channel : x) {
      Section.highPass(LOWEST_HZ, 0.7, rate).process(channel);
      // of fourth order, Butterworth
      Section.lowPass(HIGHEST_HZ, 0.5412, rate).process(channel);
      Section.lowPass(HIGHEST_HZ, 1.3066, rate).process(channel);
      for (double v : channel) {
        peak = Math.max(peak, Math.abs(v));
      }
    }
    Chance hiss = chance.fork(2);
    for (double[] channel : x) {
      for (int n = 0; n < frames; n++) {
        channel[n] = channel[n] / peak * (1 - 8 * HISS) + HISS * softened(hiss.gaussian());
      }
    }
    return x;
  }

  /** Nothing beyond the room left for it. */
  private static double softened(double deviate) {
    return Math.max(-8, Math.min(8, deviate));
  }
}
