package org.groovemend.job.restore;

import java.util.EnumMap;
import java.util.Map;
import org.groovemend.measure.CompensatedSum;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/** How much each repair stage took away, summed while it works. */
final class RepairAmounts {

  /**
   * What one stage took.
   *
   * @param energy sum of squares, full scale 1.0
   * @param peak largest magnitude
   * @param samples samples in its repairs
   */
  record Amount(double energy, double peak, long samples) {}

  private static final class Sum {
    final CompensatedSum energy = new CompensatedSum();
    double peak;
    long samples;
  }

  private final Map<StageId, Sum> sums = new EnumMap<>(StageId.class);

  void add(StageId stage, Repair repair) {
    Sum sum = sums.computeIfAbsent(stage, any -> new Sum());
    double energy = 0;
    for (double removed : repair.removed()) {
      energy += removed * removed;
      sum.peak = Math.max(sum.peak, Math.abs(removed));
    }
    sum.energy.add(energy);
    sum.samples += repair.removed().length;
  }

  Amount of(StageId stage) {
    Sum sum = sums.get(stage);
    return sum == null
        ? new Amount(0, 0, 0)
        : new Amount(sum.energy.value(), sum.peak, sum.samples);
  }
}
