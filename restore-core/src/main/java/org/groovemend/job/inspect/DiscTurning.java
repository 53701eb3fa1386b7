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

  private DiscTurning() {}

  /** The repairs if they tell, else the ticks. */
  static RotationFinding of(RepairSample clicks, int rate, RotationFinding ticks) {
    TickGatherer gatherer = new TickGatherer(rate);
    List<Repair> sorted =
        clicks.repairs().stream().sorted(Comparator.comparingLong(Repair::start)).toList();
    for (Repair repair : sorted) {
      gatherer.add(repair.start(), repair.evidence().statistic());
    }
    RotationFinding repairs = RotationSearch.of(gatherer);
    return told(repairs) ? repairs : ticks;
  }

  /** Whether it is found and may be the speed of a disc. */
  static boolean told(RotationFinding rotation) {
    return rotation.found()
        && Math.abs(rotation.rpm() / DiscSpeed.nearest(rotation.rpm()).rpm() - 1) <= NEAR_NOMINAL;
  }
}
