package org.groovemend.technical;

import java.util.Locale;

/** What can be stated of a disc and its playing; nothing of it is measured here. */
public enum DiscProperty {
  /** Speed it was played or is meant to be played at. */
  SPEED("speed", "rpm", true),
  /** Diameter of the disc. */
  DIAMETER("diameter", "cm", true),
  /** Coarse or fine groove, as the label or the eye has it. */
  GROOVE("groove", null, false),
  /** Lateral, vertical or stereo. */
  CUT("cut", null, false),
  /** Shellac, vinyl, lacquer on aluminium ... */
  MATERIAL("material", null, false),
  /** Radius of the stylus tip. */
  STYLUS_RADIUS("stylusRadius", "um", true),
  /** Conical, truncated elliptical ... */
  STYLUS_SHAPE("stylusShape", null, false),
  /** Playback curve, by the name of this program's table or in words. */
  CURVE("playbackCurve", null, false),
  CONDITION("condition", null, false);

  private final String element;
  private final String unit;
  private final boolean number;

  DiscProperty(String element, String unit, boolean number) {
    this.element = element;
    this.unit = unit;
    this.number = number;
  }

  /** The name in recipes and for people: "stylus-radius". */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  String element() {
    return element;
  }

  /** Written beside the value; null for words. */
  public String unit() {
    return unit;
  }

  boolean number() {
    return number;
  }
}
