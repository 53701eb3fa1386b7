package org.groovemend.click;

import java.util.List;
import java.util.function.LongPredicate;

/** Blocks of the side's grid about which damage is dense: those are looked at again. */
final class DenseBlocks implements LongPredicate {
  private final int hop;
  private final long first;
  private final int[] gapsNear;

  /**
   * @param gaps of every channel
   * @param from first frame of the stretch that is asked about; outside it nothing is dense
   * @param to its end
   */
  DenseBlocks(List<List<Gap>> gaps, int hop, long from, long to) {
    this.hop = hop;
    this.first = Math.floorDiv(from, hop);
    this.gapsNear = new int[(int) (Math.floorDiv(to, hop) - first + 1)];
    for (List<Gap> list : gaps) {
      for (Gap g : list) {
        // windows reach half a hop before and after their block
        long lowest = Math.max(first, Math.floorDiv(g.start() - 3L * hop / 2, hop) + 1);
        long highest =
            Math.min(first + gapsNear.length - 1, Math.floorDiv(g.end() + hop / 2 - 1, hop));
        for (long k = lowest; k <= highest; k++) {
          gapsNear[(int) (k - first)]++;
        }
      }
    }
  }

  /**
   * @param frame first of a block
   */
  @Override
  public boolean test(long frame) {
    long k = Math.floorDiv(frame, hop) - first;
    return k >= 0 && k < gapsNear.length && gapsNear[(int) k] >= ClickDecision.DENSE;
  }
}
