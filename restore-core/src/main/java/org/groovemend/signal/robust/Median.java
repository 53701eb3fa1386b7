package org.groovemend.signal.robust;

/**
 * Order statistics by selection: expected linear time, nothing allocated, same result whatever the
 * order of ties.
 */
public final class Median {
  private Median() {}

  /**
   * The value that would stand at {@code rank} after sorting {@code v[from, to)}; the range is
   * rearranged.
   */
  public static double select(double[] v, int from, int to, int rank) {
    int lo = from;
    int hi = to - 1;
    int target = from + rank;
    while (lo < hi) {
      double pivot = medianOfThree(v[lo], v[(lo + hi) >>> 1], v[hi]);
      int i = lo;
      int j = hi;
      while (i <= j) {
        while (v[i] < pivot) {
          i++;
        }
        while (v[j] > pivot) {
          j--;
        }
        if (i <= j) {
          double swap = v[i];
          v[i++] = v[j];
          v[j--] = swap;
        }
      }
      if (target <= j) {
        hi = j;
      } else if (target >= i) {
        lo = i;
      } else {
        return v[target];
      }
    }
    return v[target];
  }

  /**
   * Upper median of {@code v[from, to)}, not empty; the range is rearranged. Values must not be
   * NaN.
   */
  public static double of(double[] v, int from, int to) {
    return select(v, from, to, (to - from) / 2);
  }

  private static double medianOfThree(double a, double b, double c) {
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  }
}
