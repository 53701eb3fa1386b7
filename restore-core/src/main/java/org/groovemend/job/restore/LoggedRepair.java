package org.groovemend.job.restore;

import java.util.Comparator;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/**
 * A repair without the samples it took away: these are found by comparing original and restored.
 */
public record LoggedRepair(
    StageId stage, int channel, long start, long end, Repair.Evidence evidence) {

  /** The order of edits in a ledger. */
  static final Comparator<LoggedRepair> LEDGER_ORDER =
      Comparator.comparingLong(LoggedRepair::start)
          .thenComparingInt(LoggedRepair::channel)
          .thenComparing(LoggedRepair::stage)
          .thenComparingLong(LoggedRepair::end);

  /**
   * The repair that an edit was.
   *
   * @throws RequestRefusedException if this program knows no such stage
   */
  public static LoggedRepair of(LedgerEdit edit) {
    StageId stage =
        StageId.ofKey(edit.stage())
            .orElseThrow(
                () ->
                    new RequestRefusedException(
                        "the ledger has edits of a stage "
                            + edit.stage()
                            + " that this program does not know; take the one that made it"));
    return new LoggedRepair(
        stage,
        edit.channel(),
        edit.start(),
        edit.end(),
        new Repair.Evidence(
            edit.statistic(),
            edit.threshold(),
            edit.method(),
            edit.modelOrder(),
            edit.gapStart(),
            Math.toIntExact(edit.gapFrames()),
            edit.uncertaintyDbfs()));
  }
}
