package org.groovemend.evaluate;

import java.util.Locale;

/** What is done to a copy. */
public enum Scenario {
  /** Nothing: every repair is a false one. */
  CLEAN("no damage: every repair is a false one"),
  /** Dust and two scratches once a turn. */
  CLICKS("dust, and scratches once a turn"),
  /** Hundreds of very small ticks a second. */
  CRACKLE("a hundred small ticks a second, and dust"),
  /** Broken places, each with a swing of the arm. */
  THUMPS("broken places that set the arm swinging"),
  /** Groove noise, with bare groove in front. */
  NOISE("groove noise, with bare groove in front"),
  /** All of the above but thumps. */
  WORN("dust, scratches, crackle and groove noise"),
  /** Mains hum that drifts and beats, over a quiet groove. */
  HUM("mains hum that drifts and beats, over a quiet groove");

  private final String sentence;

  Scenario(String sentence) {
    this.sentence = sentence;
  }

  /** As a person writes it. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** In words. */
  public String sentence() {
    return sentence;
  }

  /** True if there is bare groove in front. */
  boolean groove() {
    return noisy() || this == HUM;
  }

  /** True if the noise stage has work here. */
  boolean noisy() {
    return this == NOISE || this == WORN;
  }
}
