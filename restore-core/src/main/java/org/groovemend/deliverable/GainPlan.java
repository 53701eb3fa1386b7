package org.groovemend.deliverable;

import java.util.Locale;

/**
 * The one gain of a copy.
 *
 * @param gainDb that is given
 * @param wantedDb that the target would need; differs where the peak would be exceeded
 * @param words why, a sentence for people
 */
public record GainPlan(double gainDb, double wantedDb, String words) {

  /** A gain as stated; 0 leaves the samples as they are. */
  public static GainPlan stated(double gainDb) {
    return new GainPlan(
        gainDb,
        gainDb,
        gainDb == 0
            ? "The level was left as it is."
            : String.format(Locale.ROOT, "A gain of %+.2f dB, as stated.", gainDb));
  }

  /**
   * The gain that brings a copy to a loudness, or as near to it as the peak lets it come.
   *
   * @param measured of the copy without gain, or of its set
   */
  public static GainPlan toLoudness(CopyLevel measured, LoudnessWish wish) {
    double now = measured.loudness().integratedLufs();
    String of = wish.perSet() ? "the set" : "the copy";
    if (!Double.isFinite(now)) {
      return new GainPlan(
          0,
          0,
          "The loudness of "
              + of
              + " cannot be told, it is too quiet or too short; the level was left as it is.");
    }
    double wanted = wish.targetLufs() - now;
    double most = wish.peakDbtp() - measured.truePeakDbtp();
    if (wanted <= most) {
      return new GainPlan(
          wanted,
          wanted,
          String.format(
              Locale.ROOT,
              "A gain of %+.2f dB brings %s from %.1f to %.1f LUFS.",
              wanted,
              of,
              now,
              wish.targetLufs()));
    }
    return new GainPlan(
        most,
        wanted,
        String.format(
            Locale.ROOT,
            "A gain of %+.2f dB would bring %s from %.1f to %.1f LUFS, but its true peak above %.1f dBTP: it was given %+.2f dB and is at"
                + " %.1f LUFS.",
            wanted,
            of,
            now,
            wish.targetLufs(),
            wish.peakDbtp(),
            most,
            now + most));
  }

  /** As a factor, exactly 1 for 0 dB. */
  public double factor() {
    return gainDb == 0 ? 1 : StrictMath.pow(10, gainDb / 20);
  }
}
