package org.groovemend.click;

/**
 * What is measured of a candidate. Ratios are natural logarithms, so that a weight reads as nepers
 * of evidence; "error" is the residual of the detection model of the block, in its standard
 * deviation at the place unless said otherwise. From {@link #LATERAL} on the traits need a second
 * channel.
 */
enum Trait {
  /** Root of the error energy that declaring the place unknown explains. */
  EXPLAINED,
  /** Root mean square of the error that is left in the place and just after it once filled. */
  REMAINDER,
  /** Energy explained over the energy left: an onset cannot be filled away, a click can. */
  SHARE,
  /** Length, milliseconds. */
  DURATION,
  /** Largest sample of the damage over the root mean square of the block. */
  LEVEL,
  /** The same over the root mean square of the 12 ms about the place. */
  LOCAL_LEVEL,
  /** Scale of the two-sided error just before the place. */
  BEFORE,
  /** The same just after it. */
  AFTER,
  /** After over before. */
  RISE,
  /**
   * How badly the sound after the place is predicted by a model of the sound before it, over its
   * own model (Itakura 1975).
   */
  BEFORE_ON_AFTER,
  /** The same with the two sides exchanged. */
  AFTER_ON_BEFORE,
  /** Error power after the place over that before it, each under its own model. */
  RESIDUAL_RISE,
  /** Power after the place over that before it. */
  POWER_RISE,
  /**
   * Forward error just after the place: energy unfilled over energy filled. Fill and model had no
   * freedom there.
   */
  CONFIRMED_AFTER,
  /** Forward error just after the place once filled. */
  REMAINDER_AFTER,
  /** Backward error just before the place: energy unfilled over energy filled. */
  CONFIRMED_BEFORE,
  /** Backward error just before the place once filled. */
  REMAINDER_BEFORE,
  /** Forward error in the place, unfilled. */
  FOUND_INSIDE,
  /** Forward error in the place, filled. */
  REMAINDER_INSIDE,
  /**
   * Size of the sum of the damage's samples over the sum of their sizes (no logarithm): 1 if it
   * keeps to one side of zero.
   */
  ONE_SIDED,
  /** Where in the place the largest sample lies, 0 to 1 (no logarithm). */
  PEAK_PLACE,
  /** Share of the damage's energy in the first half of the place (no logarithm). */
  FIRST_HALF,
  /** First forward error over the largest (no logarithm). */
  SHARP_START,
  /**
   * Energy of the damage's first difference over its own (no logarithm): 0 for a slow swing, 4 for
   * alternating signs.
   */
  ROUGHNESS,
  /** Other candidates within 6 ms (no logarithm). */
  NEIGHBOURS,
  /** What the strongest of them explains over what this one explains. */
  STRONGEST_NEIGHBOUR,
  /** Energy of the prediction-error filter: how predictable the sound is. */
  PREDICTABLE,
  /**
   * Agreement of the two channels' errors in sign, shape and size, -1 to 1 (no logarithm): most
   * music is about 1, damage anything.
   */
  LATERAL,
  /** Correlation of the two channels' errors (no logarithm). */
  COHERENCE,
  /** Error energy of the other channel over this one's, as amplitudes. */
  BALANCE,
  /** Error of the other channel in the place, in that channel's own standard deviation there. */
  OTHER_CHANNEL;

  static final int COUNT = values().length;
}
