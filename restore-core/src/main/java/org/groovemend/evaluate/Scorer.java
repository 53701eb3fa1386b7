package org.groovemend.evaluate;

import java.util.List;

/**
 * Compares a restored copy y of damaged sound d with the sound s as it was. All sums are over both
 * channels of the music, bare groove in front left out.
 *
 * <ul>
 *   <li>SDR on damaged samples: 10 log10(sum s^2 / sum (s - y)^2) over the samples of the damaged
 *       ranges: signal to distortion with nothing forgiven (the case without allowed distortion of
 *       E. Vincent, R. Gribonval and C. Fevotte, IEEE Trans. Audio Speech Lang. Process. 14(4),
 *       2006).
 *   <li>SNR: the same over all samples; gain is that of y less that of d.
 *   <li>Harm: 10 log10(sum s^2 / sum max(0, (s - y)^2 - (s - d)^2)) over undamaged samples: to take
 *       away a faint tail there is no harm. At most 120 dB.
 *   <li>Log-spectral distance: root mean square over frequency of the difference of the levels in
 *       dB, averaged over frames of 2048 samples, half overlapping, Hann window (A. Gray and J.
 *       Markel, IEEE Trans. Acoust. Speech Signal Process. 24(5), 1976). Levels below 80 dB under
 *       the loudest of the sound count as that.
 *   <li>Recall: share of the prominent damaged ranges that a repair of that channel touches.
 *       Precision: share of the repairs that touch a damaged range of their channel, 0.6 ms more
 *       allowed on either side (C. van Rijsbergen, "Information retrieval", 1979).
 * </ul>
 */
final class Scorer {
  private static final double NEAR_SECONDS = 0.0006;
  private static final double MOST_DB = 120;

  private final DamagedCopy copy;
  private final int rate;
  private final boolean[][] bad;

  Scorer(DamagedCopy copy, int sampleRateHz) {
    this.copy = copy;
    this.rate = sampleRateHz;
    this.bad = new boolean[copy.sound().length][copy.sound()[0].length];
    for (TrueRange t : copy.truth()) {
      java.util.Arrays.fill(bad[t.channel()], t.start(), t.end(), true);
    }
  }

  /**
   * The figures of a result.
   *
   * @param restored planar, of the copy's length
   * @param found repairs
   */
  Score score(double[][] restored, List<FoundRange> found) {
    int frames = copy.sound()[0].length;
    double minutes = frames / (double) rate / 60;
    Ratio worse = new Ratio();
    for (int c = 0; c < restored.length; c++) {
      double[] s = copy.sound()[c];
      for (int n = copy.leadFrames(); n < frames; n++) {
        if (!bad[c][n]) {
          double before = s[n] - copy.damaged()[c][n];
          double after = s[n] - restored[c][n];
          worse.add(s[n], Math.max(0, after * after - before * before));
        }
      }
    }
    SpectralDistance distance = new SpectralDistance(copy.sound(), copy.leadFrames());
    Hits hits = hits(found, 0);
    return new Score(
        ratio(copy.damaged(), true),
        ratio(restored, true),
        ratio(copy.damaged(), false),
        ratio(restored, false),
        Math.min(MOST_DB, worse.db()),
        distance.to(copy.damaged()),
        distance.to(restored),
        hits.prominent,
        hits.found,
        hits.repairs,
        hits.wrong,
        minutes,
        share(found));
  }

  /** What is found, and wrongly, with the repairs whose margin is at least so much. */
  Hits hits(List<FoundRange> found, double margin) {
    int frames = copy.sound()[0].length;
    int near = (int) Math.round(NEAR_SECONDS * rate);
    int[][] touched = new int[bad.length][frames + 1];
    int[][] damage = new int[bad.length][frames + 1];
    for (TrueRange t : copy.truth()) {
      damage[t.channel()][Math.max(0, t.start() - near)]++;
      damage[t.channel()][Math.min(frames, t.end() + near)]--;
    }
    List<FoundRange> kept = found.stream().filter(f -> f.margin() >= margin).toList();
    for (FoundRange f : kept) {
      touched[f.channel()][f.start()]++;
      touched[f.channel()][f.end()]--;
    }
    for (int c = 0; c < bad.length; c++) {
      countUp(touched[c]);
      countUp(damage[c]);
    }
    Hits hits = new Hits();
    hits.repairs = kept.size();
    for (TrueRange t : copy.truth()) {
      if (t.prominent()) {
        hits.prominent++;
        hits.found += any(touched[t.channel()], t.start(), t.end()) ? 1 : 0;
      }
    }
    for (FoundRange f : kept) {
      hits.wrong += any(damage[f.channel()], f.start(), f.end()) ? 0 : 1;
    }
    return hits;
  }

  /** Counts of {@link #hits}. */
  static final class Hits {
    int prominent;
    int found;
    int repairs;
    int wrong;
  }

  private static void countUp(int[] steps) {
    for (int n = 1; n < steps.length; n++) {
      steps[n] += steps[n - 1];
    }
  }

  private static boolean any(int[] counts, int from, int to) {
    for (int n = from; n < to; n++) {
      if (counts[n] > 0) {
        return true;
      }
    }
    return false;
  }

  private double ratio(double[][] y, boolean damagedOnly) {
    Ratio ratio = new Ratio();
    for (int c = 0; c < y.length; c++) {
      double[] s = copy.sound()[c];
      for (int n = copy.leadFrames(); n < s.length; n++) {
        if (!damagedOnly || bad[c][n]) {
          double d = s[n] - y[c][n];
          ratio.add(s[n], d * d);
        }
      }
    }
    return damagedOnly && ratio.signal == 0 ? Double.NaN : Math.min(MOST_DB, ratio.db());
  }

  private double share(List<FoundRange> found) {
    long inside = 0;
    for (int c = 0; c < bad.length; c++) {
      int last = 0;
      int channel = c;
      for (FoundRange f : found.stream().filter(f -> f.channel() == channel).toList()) {
        inside += Math.max(0, f.end() - Math.max(last, f.start()));
        last = Math.max(last, f.end());
      }
    }
    return inside / ((double) bad.length * bad[0].length);
  }

  /** Two energies. */
  private static final class Ratio {
    private double signal;
    private double other;

    void add(double s, double energy) {
      signal += s * s;
      other += energy;
    }

    double db() {
      return other == 0
          ? Double.POSITIVE_INFINITY
          : 10 * StrictMath.log10(Math.max(1e-300, signal) / other);
    }
  }
}
