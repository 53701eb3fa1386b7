package org.groovemend.speed;

/**
 * One reason to think that a side ought to run at another speed.
 *
 * @param kind what tells it
 * @param factor by which it is to run faster
 * @param half half of the 95 % interval, as a share of the factor
 * @param words a sentence for people: what was found and what is assumed
 */
public record SpeedEvidence(Kind kind, double factor, double half, String words) {

  /** What can tell a speed. */
  public enum Kind {
    /** Steady partials against a scale. */
    TUNING("tuning"),
    /** Mains hum that was recorded with the music. */
    HUM("hum of the disc"),
    /** Speed of the turntable against that the disc was made for. */
    TURNTABLE("turntable"),
    /** Several of these. */
    TOGETHER("all together");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /** Lower end of the 95 % interval. */
  public double low() {
    return factor * (1 - half);
  }

  /** Upper end. */
  public double high() {
    return factor * (1 + half);
  }
}
