package org.groovemend.audit;

import java.util.ArrayList;
import java.util.List;

/** Places spread evenly over all stretches. */
final class Windows {

  private Windows() {}

  /**
   * First frames of windows that lie wholly within stretches.
   *
   * @param length frames of a window
   * @param most windows
   */
  static long[] spread(List<Alignment.Stretch> stretches, int length, int most) {
    List<Long> all = new ArrayList<>();
    long total = 0;
    for (Alignment.Stretch s : stretches) {
      total += s.frames() / length;
    }
    long step = Math.max(1, total / most);
    long k = step / 2;
    long before = 0;
    for (Alignment.Stretch s : stretches) {
      long here = s.frames() / length;
      for (; k < before + here; k += step) {
        all.add(s.from() + (k - before) * length);
      }
      before += here;
    }
    return all.stream().mapToLong(Long::longValue).toArray();
  }
}
