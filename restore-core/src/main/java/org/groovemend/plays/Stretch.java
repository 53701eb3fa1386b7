package org.groovemend.plays;

import java.util.List;

/**
 * Sound of all plays over a stretch: the reference with its damaged places filled from other plays,
 * and what each play differs from that where it is sound.
 */
final class Stretch {
  private static final double FADE_SECONDS = 0.3e-3;

  private final double[] into;
  private final double[] away;

  Stretch(int rate) {
    int n = (int) Math.max(2, Math.round(FADE_SECONDS * rate));
    into = new double[n];
    away = new double[n];
    for (int i = 0; i < n; i++) {
      into[i] = 0.5 - 0.5 * StrictMath.cos(Math.PI * (i + 1) / (n + 1));
      away[i] = 0.5 + 0.5 * StrictMath.cos(Math.PI * (i + 1) / (n + 1));
    }
  }

  /**
   * Turns plays into the filled reference and differences, in place.
   *
   * @param x by play and channel
   * @param count frames
   * @param first frame number of index 0
   * @param places those that may touch the stretch
   */
  void part(double[][][] x, int count, long first, List<Place> places) {
    for (Place place : places) {
      if (!place.everywhere() && place.damages(0)) {
        fill(x, count, first, place);
      }
    }
    for (int p = 1; p < x.length; p++) {
      for (int c = 0; c < x[0].length; c++) {
        for (int i = 0; i < count; i++) {
          x[p][c][i] -= x[0][c][i];
        }
      }
    }
    for (Place place : places) {
      for (int p = 1; p < x.length; p++) {
        if (!place.everywhere() && place.damages(p)) {
          silence(x[p][place.channel()], count, first, place);
        }
      }
    }
  }

  /** How much of a place's fill holds at a frame. */
  private double share(Place place, long frame) {
    if (frame >= place.start()) {
      long past = frame - place.end();
      return past < 0 ? 1 : past < away.length ? away[(int) past] : 0;
    }
    long before = place.start() - frame;
    return before <= into.length ? into[into.length - (int) before] : 0;
  }

  private int from(Place place, long first) {
    return (int) Math.max(0, place.start() - into.length - first);
  }

  private int to(Place place, long first, int count) {
    return (int) Math.min(count, place.end() + away.length - first);
  }

  private void fill(double[][][] x, int count, long first, Place place) {
    double[] one = x[0][place.channel()];
    double[] other = x[place.source()][place.channel()];
    for (int i = from(place, first); i < to(place, first, count); i++) {
      one[i] += share(place, first + i) * (other[i] - one[i]);
    }
  }

  private void silence(double[] difference, int count, long first, Place place) {
    for (int i = from(place, first); i < to(place, first, count); i++) {
      difference[i] *= 1 - share(place, first + i);
    }
  }
}
