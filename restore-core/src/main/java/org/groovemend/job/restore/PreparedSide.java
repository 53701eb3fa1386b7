package org.groovemend.job.restore;

import java.util.List;
import org.groovemend.audio.SideReader;
import org.groovemend.chain.SideChain;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.side.Survey;
import org.groovemend.leadin.LeadInFinding;
import org.groovemend.ledger.LedgerNames;

/**
 * A side that has been surveyed and planned, and the places where its results go.
 *
 * @param side the transfer, open
 * @param names of the results
 * @param outputs takes them, not committed yet
 * @param survey what the first pass found
 * @param leadIn the groove-only stretch, found or stated
 * @param plan what will be done
 */
record PreparedSide(
    SideReader side,
    LedgerNames names,
    OutputSet outputs,
    Survey survey,
    LeadInFinding leadIn,
    Plan plan) {

  SideChain chain() {
    return plan.chain();
  }

  /** The stages in the order they run, as files name them. */
  List<String> stageKeys() {
    return chain().stages().stream().map(stage -> stage.parameters().stage().key()).toList();
  }
}
