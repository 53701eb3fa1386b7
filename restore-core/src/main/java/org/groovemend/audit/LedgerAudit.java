package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.stream.Collectors;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.EditsByPosition;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.RangeDigests;

/**
 * Explains a derivative word by word with a ledger.
 *
 * <p>Where only repairs ran, a word that differs is explained if it lies in an edit whose words, in
 * both files, have the digests that the edit holds. Where a stage could change any sample, a word
 * is explained if the original's word is that of the derivative plus that of the removed file
 * (modulo the word's bits); edits then only tell the place. Everything else is unexplained.
 *
 * @param changed words that differ from the original's
 * @param explained words of those that the ledger explains
 * @param unexplained words that the ledger does not explain, those among them that should differ
 *     and do not
 * @param alteredEdits numbers of edits whose words are not those that were logged, at most {@value
 *     #MOST_NUMBERS}
 * @param alteredCount how many
 * @param explanations ranges that are explained
 * @param faults ranges that are not
 * @param course difference over time
 */
record LedgerAudit(
    long changed,
    long explained,
    long unexplained,
    List<Long> alteredEdits,
    long alteredCount,
    DifferenceList explanations,
    DifferenceList faults,
    DifferenceCourse course) {

  static final int MOST_NUMBERS = 1000;
  private static final int BLOCK = 1 << 14;
  private static final long STAGES = 0;
  private static final long FAULT = -1;

  /**
   * Compares; all sides have the same shape.
   *
   * @param removed words of the removed file at full width; null where only repairs ran
   * @param proved without a removed file: the derivative's digest is the ledger's, so that its
   *     stages explain whatever differs
   */
  static LedgerAudit of(
      Ledger ledger,
      WordSource original,
      WordSource derivative,
      WordSource removed,
      boolean proved,
      Watch watch)
      throws IOException {
    return new Run(ledger, original, derivative, removed, proved).run(watch);
  }

  private static final class Run {
    private final Ledger ledger;
    private final WordSource original;
    private final WordSource derivative;
    private final WordSource removed;
    private final AudioFormat format;
    private final BitSet altered = new BitSet();
    private final DifferenceList explanations = new DifferenceList();
    private final DifferenceList faults = new DifferenceList();
    private final WordRuns[] told;
    private final WordRuns[] stages;
    private final WordRuns[] untold;
    private final DifferenceCourse course;
    private final String stageNames;
    private final String wholeSignal;
    private final boolean proved;
    private long changed;
    private long explained;
    private long unexplained;

    Run(
        Ledger ledger,
        WordSource original,
        WordSource derivative,
        WordSource removed,
        boolean proved) {
      this.ledger = ledger;
      this.proved = proved;
      this.original = original;
      this.derivative = derivative;
      this.removed = removed;
      format = original.format();
      course = new DifferenceCourse(original.frames());
      int channels = format.channels();
      told = new WordRuns[channels];
      stages = new WordRuns[channels];
      untold = new WordRuns[channels];
      for (int c = 0; c < channels; c++) {
        told[c] = new WordRuns(c, explanations);
        stages[c] = new WordRuns(c, explanations);
        untold[c] = new WordRuns(c, faults);
      }
      stageNames =
          ledger.header().stages().stream()
              .filter(stage -> stage.kind().equals(AppliedStage.SIGNAL))
              .map(AppliedStage::name)
              .collect(Collectors.joining(", "));
      wholeSignal = (stageNames.contains(",") ? "stages " : "stage ") + stageNames;
    }

    LedgerAudit run(Watch watch) throws IOException {
      checkEdits();
      int channels = format.channels();
      long[][] before = new long[channels][BLOCK];
      long[][] after = new long[channels][BLOCK];
      long[][] taken = removed == null ? null : new long[channels][BLOCK];
      LedgerEdit[][] edits = new LedgerEdit[channels][BLOCK];
      try (EditsByPosition byPosition = new EditsByPosition(ledger)) {
        for (long first = 0; first < original.frames(); first += BLOCK) {
          watch.at(first, original.frames());
          int n = (int) Math.min(BLOCK, original.frames() - first);
          original.readWords(first, n, before, 0);
          derivative.readWords(first, n, after, 0);
          if (removed != null) {
            removed.readWords(first, n, taken, 0);
          }
          mark(byPosition.reachingInto(first, first + n), first, n, edits);
          for (int c = 0; c < channels; c++) {
            compare(c, first, n, before[c], after[c], removed == null ? null : taken[c], edits[c]);
          }
        }
      }
      for (int c = 0; c < channels; c++) {
        told[c].close();
        stages[c].close();
        untold[c].close();
      }
      return new LedgerAudit(
          changed,
          explained,
          unexplained,
          altered.stream().limit(MOST_NUMBERS).mapToObj(Long::valueOf).toList(),
          altered.cardinality(),
          explanations,
          faults,
          course);
    }

    /** Edits whose words are other than logged; a digest cannot say which words. */
    private void checkEdits() throws IOException {
      RangeDigests ofOriginal = new RangeDigests(original);
      RangeDigests ofDerivative = new RangeDigests(derivative);
      ledger.forEachEdit(
          edit -> {
            boolean holds =
                ofOriginal.digest(edit.channel(), edit.start(), edit.end()).equals(edit.before())
                    && ofDerivative
                        .digest(edit.channel(), edit.start(), edit.end())
                        .equals(edit.after());
            if (!holds) {
              altered.set(Math.toIntExact(edit.number()));
            }
          });
    }

    /** The edit that explains each word: one that holds before one that does not. */
    private void mark(List<LedgerEdit> reaching, long first, int n, LedgerEdit[][] edits) {
      for (LedgerEdit[] channel : edits) {
        Arrays.fill(channel, null);
      }
      for (LedgerEdit edit : reaching) {
        int from = (int) (Math.max(first, edit.start()) - first);
        int to = (int) (Math.min(first + n, edit.end()) - first);
        LedgerEdit[] channel = edits[edit.channel()];
        for (int i = from; i < to; i++) {
          if (channel[i] == null || altered(channel[i]) && !altered(edit)) {
            channel[i] = edit;
          }
        }
      }
    }

    private boolean altered(LedgerEdit edit) {
      return altered.get((int) edit.number());
    }

    private String words(LedgerEdit edit) {
      return "edit "
          + edit.number()
          + " ("
          + edit.stage()
          + ")"
          + (stageNames.isEmpty() ? "" : " and " + stageNames);
    }

    private void compare(
        int c, long first, int n, long[] before, long[] after, long[] taken, LedgerEdit[] edits) {
      int bits = format.containerBits();
      LedgerEdit named = null;
      String words = null;
      for (int i = 0; i < n; i++) {
        boolean differs = before[i] != after[i];
        long wanted = taken == null ? before[i] : Words.minus(before[i], taken[i], bits);
        LedgerEdit edit = edits[i];
        boolean holds =
            taken != null
                ? wanted == after[i]
                : !differs || proved || edit != null && !altered(edit);
        if (!differs && holds) {
          continue;
        }
        double was = Words.toDouble(before[i], format);
        double is = Words.toDouble(after[i], format);
        changed += differs ? 1 : 0;
        course.add(first + i, is - was, was);
        long frame = first + i;
        if (!holds) {
          unexplained++;
          double off = is - Words.toDouble(wanted, format);
          boolean inEdit = taken == null && edit != null;
          untold[c].add(
              frame,
              off,
              inEdit ? Difference.Kind.EDIT : Difference.Kind.LOCAL,
              inEdit ? edit.number() : FAULT,
              inEdit,
              inEdit
                  ? Difference.UNEXPLAINED
                      + ": edit "
                      + edit.number()
                      + " ("
                      + edit.stage()
                      + ") does not hold the words that were logged"
                  : Difference.UNEXPLAINED);
          continue;
        }
        explained++;
        if (edit != null) {
          if (edit != named) {
            named = edit;
            words = words(edit);
          }
          told[c].add(frame, is - was, Difference.Kind.EDIT, edit.number(), true, words);
        } else {
          stages[c].add(frame, is - was, Difference.Kind.STAGE, STAGES, true, wholeSignal);
        }
      }
    }
  }

  /** The ranges that are told, faults first. */
  List<Difference> list() {
    List<Difference> all = new ArrayList<>(faults.list());
    all.addAll(explanations.list());
    return all;
  }
}
