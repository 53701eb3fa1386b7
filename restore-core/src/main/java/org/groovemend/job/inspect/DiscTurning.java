package org.groovemend.job.inspect;

import java.util.Comparator;
import java.util.List;
import org.groovemend.chain.RepairSample;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;
import org.groovemend.rotation.RotationSearch;
import org.groovemend.rotation.TickGatherer;
import org.groovemend.stage.Repair;

/**
 * What tells the speed of the turntable: the repairs of the clicks stage, which are damage but
 * known of a sample only, or the quick ticks of the whole side, among which are beats of the music.
 */
final class DiscTurning {

  /** A speed further than this from any nominal one is the beat of the music. */
  private static final double NEAR_NOMINAL = 0.05;

  /** Both are good to 0.3 %. */
  private static final double ALIKE = 0.006;

  private DiscTurning() {}

  /**
   * The repairs if they tell, else the ticks; of two that agree the one that sees more of what
   * recurs, since repairs are heard in parts of a side only.
   */
  static RotationFinding of(RepairSample clicks, int rate, RotationFinding ticks) {
    TickGatherer gatherer = new TickGatherer(rate);
    List<Repair> sorted =
        clicks.repairs().stream().sorted(Comparator.comparingLong(Repair::start)).toList();
    for (Repair repair : sorted) {
      gatherer.add(repair.start(), repair.evidence().statistic());
    }
    RotationFinding repairs = RotationSearch.of(gatherer);
    if (!told(repairs)) {
      return ticks;
    }
    boolean alike = told(ticks) && Math.abs(ticks.rpm() / repairs.rpm() - 1) <= ALIKE;
    return alike && recurring(ticks) > recurring(repairs) ? ticks : repairs;
  }

  private static int recurring(RotationFinding rotation) {
    return rotation.scratches().stream().mapToInt(s -> s.frames().size()).sum();
  }

  /** Whether it is found and may be the speed of a disc. */
  static boolean told(RotationFinding rotation) {
    return rotation.found()
        && Math.abs(rotation.rpm() / DiscSpeed.nearest(rotation.rpm()).rpm() - 1) <= NEAR_NOMINAL;
  }
}
