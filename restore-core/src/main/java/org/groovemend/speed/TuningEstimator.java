package org.groovemend.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Tells how far steady partials lie off a scale of twelve equal steps: where they gather on the
 * circle of a semitone, and how surely.
 *
 * <p>Circular statistics: N. I. Fisher, "Statistical Analysis of Circular Data", 1993 (mean
 * direction, Rayleigh's test). The interval allows for errors that notes of one pitch share, as of
 * an instrument out of tune with itself, and that notes of one moment share: errors are added up
 * within clusters of pitch, and of time, before they are squared (Liang and Zeger, Biometrika 73,
 * 1986), and both are added. Thirds, fifths and sevenths of a note that sounds, which lie off the
 * scale, are left out.
 */
final class TuningEstimator {

  /** Fewest notes of the scale, and fewest parts of the side, that an interval can rest on. */
  private static final int LEAST_PITCHES = 5;

  private static final int LEAST_PARTS = 4;
  private static final int PARTS = 24;
  private static final double LEAST_PART_SECONDS = 0.5;

  /** Weight of a place on the circle falls to nothing this far from the mean, cents. */
  private static final double FAR = 30;

  /** Stiff strings, and what else lies off: not less than this is claimed as standard error. */
  private static final double LEAST_ERROR = 0.7;

  /** Chance that scattered partials gather as much by Rayleigh's test. */
  private static final double MOST_CHANCE = 1e-3;

  private static final int MIDI = 140;

  private final PartialTracks tracks;
  private final double seconds;
  private final double reference;
  private final double[] cents;
  private final double[] weight;
  private final double[] middle;

  private TuningEstimator(PartialTracks tracks, double seconds, double a4Hz) {
    this.tracks = tracks;
    this.seconds = seconds;
    this.reference = StrictMath.log(a4Hz) / StrictMath.log(2) - 69 / 12.0;
    int n = tracks.count();
    cents = new double[n];
    weight = new double[n];
    middle = new double[n];
    for (int i = 0; i < n; i++) {
      int length = tracks.length(i);
      double sum = 0;
      for (int k = 0; k < length; k++) {
        sum += tracks.octaves(i, k);
      }
      cents[i] = 1200 * (sum / length - reference);
      middle[i] = tracks.seconds(tracks.firstFrame(i) + length / 2.0);
      weight[i] = tracks.upper(i) ? 0 : Math.min(length, 40);
    }
  }

  /**
   * @param a4Hz pitch of A that the players are taken to have tuned to
   */
  static TuningFinding estimate(PartialTracks tracks, double seconds, double a4Hz) {
    return new TuningEstimator(tracks, seconds, a4Hz).run(a4Hz);
  }

  private TuningFinding run(double a4Hz) {
    double re = 0;
    double im = 0;
    double all = 0;
    boolean[] heard = new boolean[MIDI];
    double partSeconds = Math.max(LEAST_PART_SECONDS, seconds / PARTS);
    boolean[] cells = new boolean[MIDI * (PARTS + 1)];
    int pitches = 0;
    int independent = 0;
    for (int i = 0; i < cents.length; i++) {
      if (weight[i] == 0) {
        continue;
      }
      double angle = 2 * Math.PI * cents[i] / 100;
      re += weight[i] * StrictMath.cos(angle);
      im += weight[i] * StrictMath.sin(angle);
      all += weight[i];
      int pitch = note(cents[i], 0);
      pitches += heard[pitch] ? 0 : 1;
      heard[pitch] = true;
      int cell = pitch * (PARTS + 1) + part(i, partSeconds);
      independent += cells[cell] ? 0 : 1;
      cells[cell] = true;
    }
    if (pitches < LEAST_PITCHES || seconds / partSeconds < LEAST_PARTS) {
      return TuningFinding.none(
          a4Hz,
          pitches,
          "the tuning cannot be told: "
              + (seconds < LEAST_PARTS * partSeconds
                  ? "the side is too short"
                  : pitches == 0
                      ? "no steady partial is heard"
                      : "only " + pitches + " notes of the scale are heard steadily"));
    }
    double gathered = Math.sqrt(re * re + im * im) / all;
    if (StrictMath.exp(-independent * gathered * gathered) > MOST_CHANCE) {
      return TuningFinding.none(
          a4Hz,
          pitches,
          "the tuning cannot be told: the steady partials gather nowhere between the notes of the scale");
    }
    double centre = robust(mode(), Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
    double error = error(centre, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, partSeconds);
    double wrapped = centre - 100 * StrictMath.rint(centre / 100);
    List<TuningFinding.Moment> moments = new ArrayList<>();
    for (int p = 0; p * partSeconds < seconds; p++) {
      moment(centre, wrapped, p * partSeconds, (p + 1) * partSeconds, moments);
    }
    return new TuningFinding(
        true,
        a4Hz,
        wrapped,
        error,
        pitches,
        moments,
        String.format(
            Locale.ROOT,
            "notes lie %+.1f cents (+-%.1f) off a scale tuned to A = %.1f Hz; a semitone more or less would fit as well",
            wrapped,
            error,
            a4Hz));
  }

  private int part(int track, double partSeconds) {
    return (int) Math.min(PARTS, middle[track] / partSeconds);
  }

  /** Number of the note nearest to a place, the scale being off by {@code centre}. */
  private static int note(double cents, double centre) {
    return (int) Math.max(0, Math.min(MIDI - 1, StrictMath.rint((cents - centre) / 100)));
  }

  private static double off(double cents, double centre) {
    double d = cents - centre;
    return d - 100 * StrictMath.rint(d / 100);
  }

  /** Where the partials are densest on the circle. */
  private double mode() {
    double best = 0;
    double most = -1;
    for (int c = -50; c < 50; c++) {
      double sum = 0;
      for (int i = 0; i < cents.length; i++) {
        double x = off(cents[i], c) / 10;
        sum += weight[i] * StrictMath.exp(-x * x / 2);
      }
      if (sum > most) {
        most = sum;
        best = c;
      }
    }
    return best;
  }

  /** Tukey's biweight. */
  private double pull(int i, double centre) {
    double x = off(cents[i], centre) / FAR;
    double rest = 1 - x * x;
    return rest <= 0 ? 0 : weight[i] * rest * rest;
  }

  private double robust(double start, double from, double to) {
    double centre = start;
    for (int round = 0; round < 30; round++) {
      double sum = 0;
      double all = 0;
      for (int i = 0; i < cents.length; i++) {
        if (middle[i] >= from && middle[i] < to) {
          double w = pull(i, centre);
          sum += w * off(cents[i], centre);
          all += w;
        }
      }
      if (!(all > 0)) {
        return Double.NaN;
      }
      centre += sum / all;
    }
    return centre;
  }

  /** Half of the 95 % interval about a centre, cents. */
  private double error(double centre, double from, double to, double partSeconds) {
    double[] byPitch = new double[MIDI];
    double[] byPart = new double[PARTS + 1];
    boolean[] pitchSeen = new boolean[MIDI];
    boolean[] partSeen = new boolean[PARTS + 1];
    double all = 0;
    for (int i = 0; i < cents.length; i++) {
      if (middle[i] < from || middle[i] >= to || weight[i] == 0) {
        continue;
      }
      double r = off(cents[i], centre);
      double x = r / FAR;
      if (x * x >= 1) {
        continue;
      }
      double w = pull(i, centre);
      int pitch = note(cents[i], centre);
      int part = part(i, partSeconds);
      byPitch[pitch] += w * r;
      pitchSeen[pitch] = true;
      byPart[part] += w * r;
      partSeen[part] = true;
      // derivative of the estimating function
      all += weight[i] * (1 - x * x) * (1 - 5 * x * x);
    }
    int pitches = count(pitchSeen);
    int parts = count(partSeen);
    int fewest = from == Double.NEGATIVE_INFINITY ? Math.min(pitches, parts) : pitches;
    if (fewest < 2 || !(all > 0)) {
      return Double.NaN;
    }
    double variance = squares(byPitch) * pitches / (pitches - 1.0);
    if (from == Double.NEGATIVE_INFINITY) {
      variance += squares(byPart) * parts / (parts - 1.0);
    }
    double t = new TDistribution(null, fewest - 1.0).inverseCumulativeProbability(0.975);
    return t * Math.sqrt(variance / (all * all) + LEAST_ERROR * LEAST_ERROR);
  }

  private static int count(boolean[] seen) {
    int n = 0;
    for (boolean one : seen) {
      n += one ? 1 : 0;
    }
    return n;
  }

  private static double squares(double[] sums) {
    double all = 0;
    for (double one : sums) {
      all += one * one;
    }
    return all;
  }

  private void moment(
      double centre, double wrapped, double from, double to, List<TuningFinding.Moment> into) {
    double here = robust(centre, from, to);
    double half = Double.isNaN(here) ? Double.NaN : error(here, from, to, seconds);
    if (!Double.isNaN(half) && half < 50) {
      into.add(new TuningFinding.Moment((from + to) / 2, wrapped + here - centre, half));
    }
  }
}
