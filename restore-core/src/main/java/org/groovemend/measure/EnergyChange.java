package org.groovemend.measure;

/**
 * What became of the energy of places of one kind, onsets or decays, the groove's own energy taken
 * off before and after.
 *
 * @param count places measured
 * @param repaired how many of them a repaired place reaches into
 * @param medianDb median change, to 0.01 dB; NaN if there is none
 * @param medianIfNoiseStayedDb the median if the noise under the music was not lowered at all and
 *     so more is to be taken off: the truth lies between the two
 * @param worstDb largest loss, -40 for that or more; NaN if there is none
 * @param worstFrame where it begins
 * @param chanceDb standard deviation that chance in the noise gives the energy of a single place,
 *     median of the places, to 0.01 dB: as for steady Gaussian noise, whose energy added to a
 *     signal is noncentral chi-square
 */
public record EnergyChange(
    long count,
    long repaired,
    double medianDb,
    double medianIfNoiseStayedDb,
    double worstDb,
    long worstFrame,
    double chanceDb) {

  /** Losses are not told further than this. */
  public static final double LEAST_DB = -40;
}
