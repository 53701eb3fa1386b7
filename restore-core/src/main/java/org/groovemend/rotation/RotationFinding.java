package org.groovemend.rotation;

import java.util.List;
import java.util.Locale;

/**
 * Speed of the turntable as the ticks tell it.
 *
 * @param found whether a speed can be claimed: {@code chance} is at most {@value #MOST_CHANCE}
 * @param rpm turns a minute, NaN if none is claimed
 * @param turnSeconds time of one turn, NaN if none is claimed
 * @param chance probability, at most, that ticks thrown down at random would repeat as evenly at
 *     any of the periods looked at; 1 if nothing repeats
 * @param places ticks seen, both walls taken together
 * @param placesWeighed how many of them, the strongest of each second, were looked at
 * @param scratches rows that would arise by chance less than once in twenty sides, in order of time
 */
public record RotationFinding(
    boolean found,
    double rpm,
    double turnSeconds,
    double chance,
    long places,
    int placesWeighed,
    List<Scratch> scratches) {

  /** Above this probability of chance, no speed is claimed. */
  public static final double MOST_CHANCE = 1e-3;

  private static final double LEAST_SAID = 1e-9;

  public RotationFinding {
    scratches = List.copyOf(scratches);
  }

  static RotationFinding none(double chance, long places, int weighed) {
    return new RotationFinding(false, Double.NaN, Double.NaN, chance, places, weighed, List.of());
  }

  /** "chance less than 1 in 1,000,000,000". */
  public String chanceInWords() {
    if (chance <= LEAST_SAID) {
      return "chance less than 1 in 1,000,000,000";
    }
    return chance > 0.5
        ? "no more than chance"
        : String.format(Locale.ROOT, "chance 1 in %,d", (long) Math.floor(1 / chance));
  }

  /** "33.3 rpm", and the nominal speed if it is another number: "33.3 rpm (33 1/3)". */
  public String speedInWords() {
    if (!found) {
      return "not found";
    }
    return String.format(Locale.ROOT, "%.1f rpm", rpm)
        + DiscSpeed.of(rpm)
            .map(speed -> " (nominal " + speed.words() + ")")
            .orElse(" (no nominal speed: it may be the beat of the music)");
  }
}
