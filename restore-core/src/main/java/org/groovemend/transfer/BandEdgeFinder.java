package org.groovemend.transfer;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.robust.Median;

/**
 * Looks for a wall in the spectrum well below half the rate: what a low-pass of a converter or a
 * resampler at another rate leaves. A worn groove, a pick-up and air fall off gently; only filters
 * fall by {@value #LEAST_FALL_DB} dB within a tenth of an octave and stay there.
 */
public final class BandEdgeFinder {

  /** Least fall that is a wall, dB (our own: a resonant pick-up loses 2 dB in a tenth octave). */
  static final double LEAST_FALL_DB = 12;

  private static final double LOWEST_HERTZ = 3000;

  /** An edge above this share of the rate is that of the file's own converter. */
  private static final double OWN = 0.44;

  /** Widths of what is compared, below and above, as shares of the frequency. */
  private static final double NEAR = 0.015;

  private static final double FAR = 0.06;

  /** Common rates whose half an edge may be. */
  private static final int[] RATES = {
    8000, 11_025, 16_000, 22_050, 32_000, 44_100, 48_000, 88_200, 96_000
  };

  /** Low-passes end between these shares of their rate. */
  private static final double LEAST_SHARE = 0.44;

  private static final double MOST_SHARE = 0.512;

  /** Below this, mean square per line is numbers without meaning. */
  private static final double NOTHING = 1e-22;

  private BandEdgeFinder() {}

  /** Looks at the spectrum of a side. */
  public static BandEdge find(FineSpectrum spectrum) {
    double[] lines = spectrum.lines();
    double line = spectrum.lineHertz();
    double sum = 0;
    for (double p : lines) {
      sum += p;
    }
    if (spectrum.isEmpty() || !(sum > NOTHING)) {
      return new BandEdge(false, Double.NaN, 0, Double.NaN, Double.NaN, List.of());
    }
    double[] db = new double[lines.length];
    Arrays.setAll(db, k -> 10 * StrictMath.log10(lines[k] + NOTHING));
    double[] cumulative = new double[db.length + 1];
    for (int k = 0; k < db.length; k++) {
      cumulative[k + 1] = cumulative[k] + db[k];
    }
    int best = -1;
    double fall = 0;
    int last = (int) (OWN * spectrum.sampleRateHz() / line);
    for (int k = (int) (LOWEST_HERTZ / line); k <= last; k++) {
      double below = mean(cumulative, k * (1 - FAR), k * (1 - NEAR));
      double above = mean(cumulative, k * (1 + NEAR), k * (1 + FAR));
      if (below - above > fall) {
        fall = below - above;
        best = k;
      }
    }
    // at the end of the search it is the shoulder of the file's own low-pass
    if (fall < LEAST_FALL_DB || best >= last) {
      return none();
    }
    int from = (int) Math.ceil(best * (1 + NEAR));
    double highest = Double.NEGATIVE_INFINITY;
    double edgeLevel = mean(cumulative, best * (1 - FAR), best * (1 - NEAR));
    for (double f = from; f * (1 + FAR) < lines.length; f *= 1 + FAR) {
      highest = Math.max(highest, mean(cumulative, f, f * (1 + FAR)));
    }
    // it rises again: a notch or a line, no end
    if (highest > edgeLevel - LEAST_FALL_DB / 2) {
      return none();
    }
    double[] rest = Arrays.copyOfRange(lines, Math.min(from, lines.length - 2), lines.length - 1);
    double median = Median.of(rest, 0, rest.length);
    // lines of a mean of many pieces scatter little about their mean
    double white = 10 * StrictMath.log10(median * FineSpectrum.LENGTH / 2);
    double hertz = best * line;
    return new BandEdge(
        true,
        hertz,
        fall,
        median <= NOTHING ? Double.NEGATIVE_INFINITY : white,
        // rounding to steps of 2^(1 - bits) makes a mean square of a twelfth of a step squared
        median <= NOTHING ? Double.NaN : (-white - 4.77) / 6.0206,
        sources(hertz, spectrum.sampleRateHz()));
  }

  private static BandEdge none() {
    return new BandEdge(true, Double.NaN, 0, Double.NaN, Double.NaN, List.of());
  }

  private static List<Integer> sources(double hertz, int rate) {
    List<Integer> suit = new ArrayList<>();
    for (int r : RATES) {
      if (r < rate && hertz >= LEAST_SHARE * r && hertz <= MOST_SHARE * r) {
        suit.add(r);
      }
    }
    return suit;
  }

  private static double mean(double[] cumulative, double from, double to) {
    int a = Math.max(0, (int) from);
    int b = Math.min(cumulative.length - 1, Math.max(a + 1, (int) to));
    return b <= a ? -220 : (cumulative[b] - cumulative[a]) / (b - a);
  }
}
