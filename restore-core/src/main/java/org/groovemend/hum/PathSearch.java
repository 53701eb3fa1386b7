package org.groovemend.hum;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.window.WindowShape;

/**
 * Where in two per cent about 50 or 60 Hz a family may lie, moment by moment: the sum over its
 * lowest lines of log(1 + power over the neighbourhood's), each capped so that a loud note counts
 * no more than a line, and the best path through it (A. Viterbi, IEEE Trans. Inf. Theory 13(2),
 * 1967). Keeps one byte for each frequency of the grid and moment, about 80 bytes a second.
 */
final class PathSearch {
  /** Speed error looked for. */
  static final double RANGE = 0.02;

  private static final double GRID_HERTZ = 0.02;
  private static final int LINES = 6;
  private static final double CAP = 5;
  private static final int FRAME = 8192;
  private static final int PADDED = 32_768;

  /** Log odds of moving by one step of the grid from one moment to the next. */
  private static final double MOVE = 1.0;

  private static final int MOST_MOVE = 5;

  private final double mainsHertz;
  private final double lineHertz;
  private final int reach;
  private final List<byte[]> from = new ArrayList<>();
  private double[] best;

  PathSearch(double mainsHertz, double rate) {
    this.mainsHertz = mainsHertz;
    this.lineHertz = rate / PADDED;
    this.reach = (int) Math.round(RANGE * mainsHertz / GRID_HERTZ);
    this.best = new double[2 * reach + 1];
  }

  /** Frequency of both families at the knots, in Hz; read in one pass. */
  static double[][] paths(LowRate low, double[] mains, int knots, int hop) throws IOException {
    PathSearch[] searches = new PathSearch[mains.length];
    for (int i = 0; i < mains.length; i++) {
      searches[i] = new PathSearch(mains[i], low.rate());
    }
    RealFft fft = new RealFft(PADDED);
    double[] window = WindowShape.HANN.periodic(FRAME);
    double[][] x = new double[low.channels()][FRAME];
    double[] work = new double[PADDED];
    double[] power = new double[PADDED / 2];
    for (long at = -FRAME / 2; at + FRAME / 2 < low.length(); at += FRAME / 2) {
      low.read(at, FRAME, x);
      Arrays.fill(power, 0);
      for (double[] channel : x) {
        Arrays.fill(work, 0);
        for (int i = 0; i < FRAME; i++) {
          work[i] = channel[i] * window[i];
        }
        fft.forward(work);
        for (int k = 1; k < power.length; k++) {
          power[k] += work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1];
        }
      }
      for (PathSearch search : searches) {
        search.take(power);
      }
    }
    double[][] paths = new double[mains.length][];
    for (int i = 0; i < mains.length; i++) {
      paths[i] = searches[i].path(knots, hop / (double) (FRAME / 2));
    }
    return paths;
  }

  private void take(double[] power) {
    double[] score = new double[best.length];
    for (int k = 1; k <= LINES; k++) {
      double around = around(power, k);
      if (!(around > 0)) {
        continue;
      }
      for (int g = 0; g < score.length; g++) {
        int line = (int) Math.round(k * hertz(g) / lineHertz);
        score[g] += Math.min(CAP, StrictMath.log1p(power[line] / around));
      }
    }
    byte[] came = new byte[best.length];
    double[] next = new double[best.length];
    for (int g = 0; g < best.length; g++) {
      double most = Double.NEGATIVE_INFINITY;
      for (int d = 0; d <= MOST_MOVE; d++) {
        for (int s = d == 0 ? 1 : -1; s <= 1; s += 2) {
          int p = g + s * d;
          if (p >= 0 && p < best.length && best[p] - MOVE * d > most) {
            most = best[p] - MOVE * d;
            came[g] = (byte) (s * d);
          }
        }
      }
      next[g] = most + score[g];
    }
    from.add(came);
    best = next;
  }

  private double around(double[] power, int k) {
    double width = Math.max(6, k * mainsHertz * RANGE + 3);
    int low = (int) ((k * mainsHertz - width) / lineHertz);
    int high = (int) ((k * mainsHertz + width) / lineHertz);
    double[] near = Arrays.copyOfRange(power, low, high);
    return Median.of(near, 0, near.length);
  }

  private double hertz(double g) {
    return mainsHertz + (g - reach) * GRID_HERTZ;
  }

  private double[] path(int knots, double momentsPerKnot) {
    int moments = from.size();
    int g = reach;
    for (int d = 0; d <= reach; d++) {
      // of equals the one nearest to the mains
      g = best[reach + d] > best[g] ? reach + d : g;
      g = best[reach - d] > best[g] ? reach - d : g;
    }
    double[] track = new double[moments];
    for (int m = moments - 1; m >= 0; m--) {
      track[m] = hertz(g);
      g += from.get(m)[g];
    }
    double[] out = new double[knots];
    for (int j = 0; j < knots; j++) {
      double u = Math.min(moments - 1, j * momentsPerKnot);
      int m = (int) Math.min(Math.max(0, moments - 2), Math.floor(u));
      double t = u - m;
      out[j] = m + 1 < moments ? track[m] * (1 - t) + track[m + 1] * t : track[m];
    }
    return out;
  }
}
