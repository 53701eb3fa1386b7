package org.groovemend.walls;

import java.util.List;

/**
 * How the two groove walls of a side agree; goes into the ledger.
 *
 * @param verdict what the walls hold
 * @param confidence share of the louder seconds that say the same, each by itself; 0 to 1
 * @param reason a sentence or two for people
 * @param correlation of both walls from 250 Hz to 4 kHz over the side, as wired; NaN if one is
 *     silent
 * @param balanceDb level of what both share in the right wall re the left, dB, all octaves together
 * @param balanceDoubtDb standard deviation of that; infinite if not told
 * @param delay of the right wall behind the left
 * @param verticalDb what swells with the music in the vertical part re the lateral, noise taken
 *     off, 250 Hz to 4 kHz, dB; for an opposed side lateral re vertical; NaN if not told
 * @param turnedDb what of the vertical part is the lateral part turned, as sound is that comes
 *     through a room to two microphones, re the lateral part, dB; as {@code verticalDb}
 * @param leftIntoRightDb crosstalk is no more than this: the right wall's level re the left's in
 *     the seconds and octaves in which the left outweighs the right most (2 %); NaN for a mono
 *     side, where crosstalk cannot be told
 * @param rightIntoLeftDb likewise
 * @param bands octaves
 */
public record WallFinding(
    Verdict verdict,
    double confidence,
    String reason,
    double correlation,
    double balanceDb,
    double balanceDoubtDb,
    DelayFinding delay,
    double verticalDb,
    double turnedDb,
    double leftIntoRightDb,
    double rightIntoLeftDb,
    List<WallBand> bands) {

  public WallFinding {
    bands = List.copyOf(bands);
  }

  static WallFinding bare(Verdict verdict, String reason) {
    return new WallFinding(
        verdict,
        1,
        reason,
        Double.NaN,
        0,
        Double.POSITIVE_INFINITY,
        DelayFinding.none(),
        Double.NaN,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        List.of());
  }
}
