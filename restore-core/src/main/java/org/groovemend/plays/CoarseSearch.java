package org.groovemend.plays;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.fft.RealFft;

/**
 * Finds offset and ratio of speeds from how loudness moves: passages of the reference, stretched by
 * some ratios, are sought all over the other play by correlation; the line on which most of the
 * places lie is taken.
 */
final class CoarseSearch {
  static final double PASSAGE_SECONDS = 8;
  private static final int MOST_PASSAGES = 24;

  /** First the ratios of turntables that mean to run alike, then those of a wrong setting. */
  private static final double[] REACHES = {0.015, 0.10};

  private static final double RATIO_STEP = 0.005;

  /** How far from the line a place may lie. */
  private static final double INLIER_SECONDS = 0.06;

  private final Loudness reference;
  private final Loudness play;

  /**
   * What was found.
   *
   * @param offsetSeconds of the play, at the reference's start
   * @param ratio seconds of the play for one of the reference
   * @param agreeing passages whose places lie on the line
   * @param passages sought
   */
  record Finding(double offsetSeconds, double ratio, int agreeing, int passages) {

    /** Chance puts two on a line, seldom three. */
    boolean found() {
      return passages < 3 ? agreeing == passages && passages > 0 : agreeing >= 3;
    }
  }

  /** A place at which a passage was found. */
  private record Place(double at, double found, double ratio, double strength) {}

  CoarseSearch(Loudness reference, Loudness play) {
    this.reference = reference;
    this.play = play;
  }

  Finding run() {
    Finding best = new Finding(0, 1, 0, 0);
    for (double reach : REACHES) {
      Finding one = line(places(reach));
      if (one.agreeing > best.agreeing || best.passages == 0) {
        best = one;
      }
      if (best.agreeing * 2 > best.passages && best.found()) {
        break;
      }
    }
    return best;
  }

  private List<Place> places(double reach) {
    List<Place> places = new ArrayList<>();
    int length = (int) Math.min(PASSAGE_SECONDS * Loudness.PER_SECOND, reference.length());
    if (length < Loudness.PER_SECOND || play.length() < Loudness.PER_SECOND) {
      return places;
    }
    int size = 1;
    while (size < play.length() + (int) (length * (1 + reach)) + 2) {
      size *= 2;
    }
    RealFft fft = new RealFft(size);
    double[][] spectra = new double[play.moves().length][];
    for (int b = 0; b < spectra.length; b++) {
      spectra[b] = java.util.Arrays.copyOf(play.moves()[b], size);
      fft.forward(spectra[b]);
    }
    int count = Math.max(1, Math.min(MOST_PASSAGES, 2 * reference.length() / length - 1));
    int steps = (int) Math.round(reach / RATIO_STEP);
    double[] sum = new double[size];
    double[] work = new double[size];
    for (int p = 0; p < count; p++) {
      int start = count == 1 ? 0 : (int) ((long) p * (reference.length() - length) / (count - 1));
      Place best = null;
      for (int s = -steps; s <= steps; s++) {
        double ratio = 1 + s * RATIO_STEP;
        java.util.Arrays.fill(sum, 0);
        for (int b = 0; b < spectra.length; b++) {
          stretched(reference.moves()[b], start, length, ratio, work);
          fft.forward(work);
          multiply(spectra[b], work, sum);
        }
        fft.inverse(sum);
        Place place = peak(sum, start, length, ratio);
        if (best == null || place.strength > best.strength) {
          best = place;
        }
      }
      places.add(best);
    }
    return places;
  }

  private static void stretched(double[] x, int start, int length, double ratio, double[] into) {
    java.util.Arrays.fill(into, 0);
    int n = (int) ((length - 1) * ratio);
    for (int i = 0; i < n; i++) {
      double at = start + i / ratio;
      int whole = (int) at;
      double part = at - whole;
      into[i] = x[whole] * (1 - part) + x[Math.min(x.length - 1, whole + 1)] * part;
    }
  }

  /** Adds a times the conjugate of b, packed as {@link RealFft} does. */
  private static void multiply(double[] a, double[] b, double[] sum) {
    sum[0] += a[0] * b[0];
    sum[1] += a[1] * b[1];
    for (int k = 2; k < a.length; k += 2) {
      sum[k] += a[k] * b[k] + a[k + 1] * b[k + 1];
      sum[k + 1] += a[k + 1] * b[k] - a[k] * b[k + 1];
    }
  }

  private Place peak(double[] sum, int start, int length, double ratio) {
    int best = 0;
    double energy = 0;
    int most = (int) (length * ratio);
    for (int i = 0; i < sum.length; i++) {
      energy += sum[i] * sum[i];
      // lags from -length to the end of the play
      boolean possible = i < play.length() || i > sum.length - most;
      if (possible && sum[i] > sum[best]) {
        best = i;
      }
    }
    double lag = best < play.length() ? best : best - sum.length;
    double strength = sum[best] / Math.sqrt(energy / sum.length + 1e-30);
    return new Place(
        start / (double) Loudness.PER_SECOND, lag / Loudness.PER_SECOND, ratio, strength);
  }

  /** The line on which the places of most strength lie. */
  private static Finding line(List<Place> places) {
    Finding best = new Finding(0, 1, 0, places.size());
    double most = 0;
    for (int i = 0; i < places.size(); i++) {
      Place a = places.get(i);
      for (int j = i; j < places.size(); j++) {
        Place b = places.get(j);
        double ratio = i == j ? a.ratio : (b.found - a.found) / (b.at - a.at);
        if (!(Math.abs(ratio - 1) <= REACHES[1] + RATIO_STEP)) {
          continue;
        }
        double strength = 0;
        int agreeing = 0;
        for (Place p : places) {
          if (Math.abs(a.found + ratio * (p.at - a.at) - p.found) < INLIER_SECONDS) {
            strength += p.strength;
            agreeing++;
          }
        }
        if (strength > most * (1 + 1e-9)) {
          most = strength;
          best = squares(places, a, ratio, agreeing);
        }
      }
    }
    return best;
  }

  /** Least squares through the places near a line. */
  private static Finding squares(List<Place> places, Place a, double ratio, int agreeing) {
    double n = 0;
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double sxy = 0;
    for (Place p : places) {
      if (Math.abs(a.found + ratio * (p.at - a.at) - p.found) < INLIER_SECONDS) {
        n++;
        sx += p.at;
        sy += p.found;
        sxx += p.at * p.at;
        sxy += p.at * p.found;
      }
    }
    double spread = n * sxx - sx * sx;
    double slope = n > 1 && spread > 1 ? (n * sxy - sx * sy) / spread : ratio;
    return new Finding((sy - slope * sx) / n, slope, agreeing, places.size());
  }
}
