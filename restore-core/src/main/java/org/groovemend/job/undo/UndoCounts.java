package org.groovemend.job.undo;

import java.io.IOException;
import java.util.Map;
import java.util.TreeMap;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.Verdict;
import org.groovemend.ledger.Ledger;

/**
 * What decisions mean for the edits of a ledger.
 *
 * @param edits edits of the ledger
 * @param undone how many are to be taken back
 * @param asked how many were left to a person, and stay
 * @param undoneByStage those to be taken back, by stage
 * @param keptByStage the others
 * @param signedOffBy who signed the decisions off, or null if nobody did
 * @param overlap whether an edit that is taken back and one that stays meet in a sample
 * @param replay whether the treatment has to be run again: edits overlap, a stage may have touched
 *     any sample, or samples were limited to full scale
 */
public record UndoCounts(
    long edits,
    long undone,
    long asked,
    Map<String, Long> undoneByStage,
    Map<String, Long> keptByStage,
    String signedOffBy,
    boolean overlap,
    boolean replay) {

  static UndoCounts of(Ledger ledger, DecisionFile decisions) throws IOException {
    Counter counter = new Counter(ledger.header().original().format().channels());
    ledger.forEachEdit(
        edit -> {
          Verdict verdict = decisions.verdictOf(edit);
          boolean undo = verdict == Verdict.UNDO;
          counter.asked += verdict == Verdict.ASK ? 1 : 0;
          (undo ? counter.undone : counter.kept).merge(edit.stage(), 1L, Long::sum);
          // edits come in order of start: only the furthest end of the other sort matters
          long[] other = undo ? counter.keptEnd : counter.undoneEnd;
          long[] own = undo ? counter.undoneEnd : counter.keptEnd;
          counter.overlap |= edit.start() < other[edit.channel()];
          own[edit.channel()] = Math.max(own[edit.channel()], edit.end());
        });
    return new UndoCounts(
        ledger.totals().edits(),
        sum(counter.undone),
        counter.asked,
        counter.undone,
        counter.kept,
        decisions.signOff() == null ? null : decisions.signOff().by(),
        counter.overlap,
        counter.overlap || ledger.header().wholeSignal() || ledger.totals().clippedSamples() > 0);
  }

  private static long sum(Map<String, Long> byStage) {
    return byStage.values().stream().mapToLong(Long::longValue).sum();
  }

  private static final class Counter {
    private final Map<String, Long> undone = new TreeMap<>();
    private final Map<String, Long> kept = new TreeMap<>();
    private final long[] undoneEnd;
    private final long[] keptEnd;
    private long asked;
    private boolean overlap;

    Counter(int channels) {
      undoneEnd = new long[channels];
      keptEnd = new long[channels];
    }
  }
}
