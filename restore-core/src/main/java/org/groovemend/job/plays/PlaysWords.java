package org.groovemend.job.plays;

import java.util.List;
import java.util.Locale;

/** Figures of a comparison of plays in words and cells. */
public final class PlaysWords {

  /** Heads of {@link #row}. */
  static final List<String> TITLES =
      List.of(
          "Play",
          "Noise of its own, dB(A)",
          "Lead-in, dBFS",
          "Clicks of its own a minute",
          "Repairs a minute",
          "Reaches, kHz",
          "Loud over soft, dB");

  static final String NOTE =
      "Noise and clicks of its own: what this play has and the others have not. Repairs: what restore would repair, those in"
          + " all plays with them. Reaches: highest third octave in which loud passages stand out of its noise. Loud over"
          + " soft: unshared sound, 2 to 10 kHz; much of it hints at distortion or wear.";

  static final List<String> ALIGNMENT_TITLES =
      List.of(
          "Play",
          "Starts at, s",
          "Speed, %",
          "Sway, % rms",
          "Gain, dB",
          "Likeness",
          "Map in doubt by, samples");

  private PlaysWords() {}

  /** Cells of a play, in the order of the table. */
  public static List<String> row(PlayMeasures p) {
    return List.of(
        p.name(),
        number("%.1f", p.noiseDba()),
        number("%.1f", p.grooveDbfs()),
        number("%.0f", p.clicksAloneAMinute()),
        number("%.0f", p.repairsAMinute()),
        number("%.1f", p.extentHertz() / 1000),
        number("%.1f", p.loudExcessDb()));
  }

  /** Cells of how a play lies. */
  public static List<String> alignmentRow(PlayMeasures p) {
    var a = p.alignment();
    return List.of(
        p.name(),
        number("%+.3f", a.offsetSeconds()),
        number("%+.3f", 100 * (1 / a.ratio() - 1)),
        number("%.3f", a.swayPercent()),
        number("%+.2f", 20 * StrictMath.log10(Math.abs(a.gains().get(0)))),
        number("%.2f", a.likeness()),
        number("%.3f", a.doubtSamples()));
  }

  private static String number(String format, double value) {
    return Double.isNaN(value) ? "unknown" : String.format(Locale.ROOT, format, value);
  }

  /** The outcome in a sentence or two. */
  public static String summary(ComparePlays.Finding f) {
    PlayMeasures best = f.plays().get(f.ranking().get(0));
    PlayMeasures next = f.plays().get(f.ranking().get(1));
    double noise = next.noiseDba() - best.noiseDba();
    return String.format(
            Locale.ROOT,
            "%s is the better play: its own noise is %.1f dB %s than that of %s, and it has %.0f clicks of its own a minute against"
                + " %.0f. %d places are damaged in all of them, in different ways.",
            best.name(),
            Math.abs(noise),
            noise >= 0 ? "lower" : "higher",
            next.name(),
            best.clicksAloneAMinute(),
            next.clicksAloneAMinute(),
            f.everywhere())
        + along(best, next);
  }

  /** Where the one is the quieter, in a sentence; nothing for less than two minutes. */
  private static String along(PlayMeasures best, PlayMeasures next) {
    int all = Math.min(best.minutes().size(), next.minutes().size());
    if (all < 2) {
      return "";
    }
    int quieter = 0;
    int widest = 0;
    double most = 0;
    for (int n = 0; n < all; n++) {
      double less = next.minutes().get(n).noiseDba() - best.minutes().get(n).noiseDba();
      quieter += less > 0 ? 1 : 0;
      if (Math.abs(less) > Math.abs(most)) {
        most = less;
        widest = n;
      }
    }
    long at = Math.round(best.minutes().get(widest).fromSeconds());
    return String.format(
        Locale.ROOT,
        " Minute by minute it is the quieter one in %d of %d; they differ most, by %.1f dB, from %d:%02d.",
        quieter,
        all,
        Math.abs(most),
        at / 60,
        at % 60);
  }
}
