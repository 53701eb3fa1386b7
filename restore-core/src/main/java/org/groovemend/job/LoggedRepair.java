package org.groovemend.job;

import java.util.Comparator;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/**
 * A repair without the samples it took away: these are found by comparing original and restored.
 */
record LoggedRepair(StageId stage, int channel, long start, long end, Repair.Evidence evidence) {

  /** The order of edits in a ledger. */
  static final Comparator<LoggedRepair> LEDGER_ORDER =
      Comparator.comparingLong(LoggedRepair::start)
          .thenComparingInt(LoggedRepair::channel)
          .thenComparing(LoggedRepair::stage)
          .thenComparingLong(LoggedRepair::end);
}
