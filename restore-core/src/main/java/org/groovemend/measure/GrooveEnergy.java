package org.groovemend.measure;

/**
 * Energy of the bare groove before and after, above a corner frequency: what is taken off the
 * energy of a note to get that of the music alone.
 *
 * @param fromHertz corner of the high-pass
 * @param before mean square before
 * @param after mean square after
 * @param onsetSpread standard deviation of the mean square over the length of an onset, before,
 *     over {@code before}
 * @param decaySpread the same over the length of a decay
 */
public record GrooveEnergy(
    double fromHertz, double before, double after, double onsetSpread, double decaySpread) {

  /** For sides whose groove is not known: nothing is taken off. */
  public static GrooveEnergy unknown(double fromHertz) {
    return new GrooveEnergy(fromHertz, 0, 0, 0, 0);
  }
}
