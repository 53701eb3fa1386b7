package org.groovemend.rumble;

/**
 * What was measured before, and what will be taken; goes into the ledger. Levels are root mean
 * squares in dB re full scale of moments of half a second, clicks and all, of the side as captured;
 * negative infinity for nothing. Lateral is half the sum, vertical half the difference of the
 * channels; a side of one channel is all lateral.
 *
 * @param loudDbfs loud music: the moments that 5 % are louder than, all frequencies
 * @param lowDbfs below {@link RumbleAnalyser#SUBSONIC_HERTZ}, constant offset and all, both parts:
 *     the moments that 10 % are louder than
 * @param bandLowHertz lower end of the band of the next three
 * @param bandHighHertz upper end
 * @param lateralBandDbfs lateral part in the band, the moments that 10 % are louder than
 * @param verticalBandDbfs vertical part in the band, likewise
 * @param verticalQuietDbfs the same in the bare groove, or if none is known the moments that 5 %
 *     are quieter than
 * @param lowTaken whether the low part is taken out of every channel
 * @param verticalTaken whether more of the vertical part is taken out
 * @param reason a sentence or two for people
 */
public record RumbleFinding(
    double loudDbfs,
    double lowDbfs,
    double bandLowHertz,
    double bandHighHertz,
    double lateralBandDbfs,
    double verticalBandDbfs,
    double verticalQuietDbfs,
    boolean lowTaken,
    boolean verticalTaken,
    String reason) {

  /** Whether anything is taken. */
  public boolean taken() {
    return lowTaken || verticalTaken;
  }
}
