package org.groovemend.job.undo;

import java.io.IOException;
import java.util.Map;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.chain.SideChain;
import org.groovemend.chain.SignalWatch;
import org.groovemend.ledger.Ledger;
import org.groovemend.stage.Crew;
import org.groovemend.stage.StageId;

/** A treatment made ready to be run again. */
interface Repetition {

  /** Makes a treatment ready again. */
  @FunctionalInterface
  interface Maker {
    /**
     * Looks at the original as the first treatment did.
     *
     * @param side the original, stays open
     * @throws NotRepeatedException if it finds something else than the ledger says
     */
    Repetition of(Ledger ledger, SideReader side, Crew crew, Progress progress) throws IOException;
  }

  /** What the chain is to work on. */
  WordSource words();

  SideChain chain();

  Map<StageId, SignalWatch> watches();

  /**
   * Findings about the run and what came out of it, by name; asked once, after the run.
   *
   * @param copy what came out
   */
  Map<String, Object> findings(SideReader copy) throws IOException;
}
