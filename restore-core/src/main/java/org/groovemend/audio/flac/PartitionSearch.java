package org.groovemend.audio.flac;

/** Chooses partition order and Rice parameters for a residual, by estimated length. */
final class PartitionSearch {

  /** RFC 9639 section 7: the streamable subset goes up to 8. */
  private static final int MAX_PARTITION_ORDER = 8;

  private static final int LARGEST_FOUR_BIT_PARAMETER = 14;
  private static final int LARGEST_FIVE_BIT_PARAMETER = 30;

  private final long[] magnitude = new long[1 << MAX_PARTITION_ORDER];
  private final int[] chosen = new int[1 << MAX_PARTITION_ORDER];
  private long bits;
  private int largest;

  /**
   * Completes the plan of a predicted subframe.
   *
   * @return bits of the coded residual, nearly
   */
  long choose(SubframePlan plan, int[] residual, int count) {
    int finest = Math.min(MAX_PARTITION_ORDER, Integer.numberOfTrailingZeros(count));
    while (finest > 0 && count >>> finest <= plan.order) {
      finest--;
    }
    int length = count >>> finest;
    int from = plan.order;
    for (int p = 0; p < 1 << finest; p++) {
      int to = length * (p + 1);
      magnitude[p] = RiceParameter.magnitude(residual, from, to);
      from = to;
    }
    long best = Long.MAX_VALUE;
    for (int o = finest; o >= 0; o--) {
      measure(plan, o, count);
      if (bits < best) {
        best = bits;
        plan.setPartitionOrder(o);
        keep(plan, o);
        plan.parameterBits = largest > LARGEST_FOUR_BIT_PARAMETER ? 5 : 4;
      }
      for (int p = 0; p < 1 << o >> 1; p++) {
        magnitude[p] = magnitude[2 * p] + magnitude[2 * p + 1];
      }
    }
    return best;
  }

  /**
   * Sets {@link #chosen} (-1 for silence), {@link #bits} and {@link #largest} for one partition
   * order.
   */
  private void measure(SubframePlan plan, int partitionOrder, int count) {
    int partitions = 1 << partitionOrder;
    int length = count >>> partitionOrder;
    long sum = 0;
    int top = 0;
    for (int p = 0; p < partitions; p++) {
      int n = p == 0 ? length - plan.order : length;
      long m = magnitude[p];
      if (m == 0) {
        chosen[p] = -1;
        sum += 5;
        continue;
      }
      int k = Math.min(RiceParameter.of(m, n), LARGEST_FIVE_BIT_PARAMETER);
      long cost = RiceParameter.bits(m, n, k);
      if (k > 0) {
        long less = RiceParameter.bits(m, n, k - 1);
        if (less < cost) {
          cost = less;
          k--;
        }
      }
      chosen[p] = k;
      top = Math.max(top, k);
      sum += cost;
    }
    largest = top;
    bits = 6 + sum + (long) partitions * (top > LARGEST_FOUR_BIT_PARAMETER ? 5 : 4);
  }

  private void keep(SubframePlan plan, int partitionOrder) {
    for (int p = 0; p < 1 << partitionOrder; p++) {
      boolean silent = chosen[p] < 0;
      plan.parameters[p] = silent ? 0 : chosen[p];
      plan.rawBits[p] = silent ? 0 : SubframePlan.RICE;
    }
  }
}
