package org.groovemend.click;

import java.util.Arrays;
import org.groovemend.signal.linear.ToeplitzSolver;

/**
 * Takes the places that stand out of a block's error one after another, the strongest first, each
 * filled before the next is sought. One instance per thread.
 */
final class PlaceSearch {
  /** Deviations from which a place is looked at. */
  static final double FIRST_LOOK = 5;

  private static final double EXTENT = 3.5;
  private static final double TRIM = 9;

  /** Share of a place's largest residual below which its tail is left alone. */
  private static final double TAIL = 0.02;

  /**
   * Share of a place's largest two-sided error below which its neighbourhood holds no place of its
   * own.
   */
  private static final double SHADOW = 0.03;

  private static final int MOST_TRIMS = 6;

  private final int size;
  private final int order;
  private final int longest;
  private final BlockError block;
  private final double[] deviations;
  private final double[] shadow;
  private final double[] d;
  private final ToeplitzSolver toeplitz = new ToeplitzSolver();

  PlaceSearch(ClickGeometry g, BlockError block) {
    size = g.window();
    order = g.order();
    longest = g.longestCore();
    this.block = block;
    deviations = new double[size];
    shadow = new double[size];
    d = new double[size];
  }

  /** Fills the places in the block and adds them to {@code places}. */
  void run(Places places) {
    places.clear();
    Arrays.fill(shadow, 0);
    int from = 2 * order;
    int to = size - 2 * order;
    measure(from, to);
    for (int attempt = 0; attempt < 2 * Places.MOST && places.count() < Places.MOST; attempt++) {
      int peak = -1;
      double most = FIRST_LOOK;
      for (int n = from; n < to; n++) {
        if (deviations[n] > most && deviations[n] > shadow[n]) {
          most = deviations[n];
          peak = n;
        }
      }
      if (peak < 0) {
        break;
      }
      place(peak, most, places);
    }
  }

  private void measure(int from, int to) {
    double weight = 1 / Math.sqrt(block.b[0]);
    double[] y = block.y;
    double[] e = block.e;
    double[] scales = block.scales;
    for (int n = from; n < to; n++) {
      deviations[n] = Math.max(weight * Math.abs(y[n]), Math.abs(e[n])) / scales[n];
    }
  }

  /**
   * Finds the extent of the place about {@code peak} and fills it, unless it is too long to be a
   * click.
   */
  private void place(int peak, double top, Places places) {
    double[] e = block.e;
    double scale = block.scales[peak];
    double largest = 0;
    for (int n = Math.max(order, peak - order); n < Math.min(size, peak + order); n++) {
      largest = Math.max(largest, Math.abs(e[n]));
    }
    double threshold = Math.max(EXTENT * scale, TAIL * largest);
    int gap = Math.max(4, order / 4);
    int start = peak;
    int least = Math.max(order, peak - longest);
    for (int n = peak; n >= least && n >= start - gap; n--) {
      if (Math.abs(e[n]) > threshold) {
        start = n;
      }
    }
    int end = peak + 1;
    int most = Math.min(size - order, peak + longest);
    for (int n = peak; n < most && n < end + gap; n++) {
      if (Math.abs(block.backward(n)) > threshold) {
        end = n + 1;
      }
    }
    if (end - start > longest) {
      darken(start, end, SHADOW * top);
      return;
    }
    int m = end - start;
    for (int trim = 0; ; trim++) {
      solve(start, m);
      // what the last, and by symmetry the first, sample of the place is worth
      double pivot = toeplitz.lastPivot() / (scale * scale);
      boolean last = d[m - 1] * d[m - 1] * pivot < TRIM;
      boolean first = d[0] * d[0] * pivot < TRIM;
      if (m <= 1 || trim == MOST_TRIMS || !(last || first)) {
        break;
      }
      if (first) {
        start++;
        m--;
      }
      if (last && m > 1) {
        m--;
      }
    }
    double explained = 0;
    double amplitude = 0;
    for (int i = 0; i < m; i++) {
      if (Math.abs(d[i]) > Math.abs(amplitude)) {
        amplitude = d[i];
      }
      explained += d[i] * block.y[start + i];
      block.z[start + i] -= d[i];
    }
    places.add(start, start + m, scale, Math.sqrt(Math.max(0, explained)) / scale, amplitude);
    darken(start, start + m, SHADOW * top);
    shadow[peak] = Double.POSITIVE_INFINITY;
    block.filter(start, start + m);
    measure(Math.max(2 * order, start - order), Math.min(size - 2 * order, start + m + order));
  }

  private void darken(int start, int end, double around) {
    for (int n = Math.max(0, start - longest); n < Math.min(size, end + longest); n++) {
      boolean inside = n >= start && n < end;
      shadow[n] = Math.max(shadow[n], inside ? Double.POSITIVE_INFINITY : around);
    }
  }

  /**
   * Takes the most likely values of [start, start + m) given the block's errors out of the block.
   */
  void fill(int start, int m) {
    solve(start, m);
    for (int i = 0; i < m; i++) {
      block.z[start + i] -= d[i];
    }
  }

  private void solve(int start, int m) {
    System.arraycopy(block.y, start, d, 0, m);
    if (!toeplitz.solve(block.b, order + 1, d, m)) {
      Arrays.fill(d, 0, m, 0);
    }
  }
}
