package org.groovemend.job.undo;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.RepairSelection;
import org.groovemend.job.restore.NotRepeatedException;
import org.groovemend.job.restore.RepairLog;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.EditReader;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;

/**
 * Holds the repairs of a run against the edits of the ledger it repeats, one by one, and says which
 * of them are made.
 *
 * <p>Every edit of the ledger must be found again with all its evidence. A repair that is no edit
 * can be one of two things: one that was taken back earlier, in a ledger that has a parent, and is
 * left out again; or one that took away less than half a step everywhere and was never an edit.
 * Those are made again wherever nothing is left out, for they were in the sum that was rounded. How
 * they are told apart: in a first treatment the restored words in their range must be the
 * original's; in a ledger with a parent they are listed, and of the others there must be as many as
 * were taken back. Where words were put back instead of the treatment run again there is no such
 * list; then the first treatment's ledger tells which were taken back, and if it is not at hand
 * there may be none without effect.
 */
final class ReplayProof implements RepairSelection, Closeable {

  /** Name of the finding that lists repairs without effect, in ledgers that have a parent. */
  static final String WITHOUT_EFFECT = "withoutEffect";

  private final Ledger ledger;
  private final Predicate<LedgerEdit> undoes;
  private final WordSource original;
  private final WordSource restored;
  private final RepairLog kept;
  private final Map<StageId, Cursor> cursors = new EnumMap<>(StageId.class);
  private final Set<Place> known = new HashSet<>();
  private boolean listed;

  /** What was taken back since the first treatment; null if that is not known. */
  private final Set<Place> takenBack;

  private final List<Place> withoutEffect = new ArrayList<>();
  private long leftOutBefore;

  /** A repair that is no edit. */
  private record Place(String stage, long channel, long start, long end) {
    static Place of(StageId stage, Repair repair) {
      return new Place(stage.key(), repair.channel(), repair.start(), repair.end());
    }

    static Place of(LedgerEdit edit) {
      return new Place(edit.stage(), edit.channel(), edit.start(), edit.end());
    }
  }

  /** The edits of one stage in order, which is the order in which it finds them. */
  private static final class Cursor implements Closeable {
    private final EditReader edits;
    private final String stage;
    private LedgerEdit next;

    Cursor(Ledger ledger, StageId stage) throws IOException {
      this.edits = ledger.edits();
      this.stage = stage.key();
      advance();
    }

    void advance() throws IOException {
      do {
        next = edits.next();
      } while (next != null && !next.stage().equals(stage));
    }

    @Override
    public void close() throws IOException {
      edits.close();
    }
  }

  /**
   * @param undoes the edits to be left out
   * @param original the rebuilt original
   * @param restored the restored file of the ledger
   * @param kept takes the edits that stay
   * @param first ledger of the first treatment, where this one descends from it and it is at hand;
   *     null else
   */
  ReplayProof(
      Ledger ledger,
      Predicate<LedgerEdit> undoes,
      WordSource original,
      WordSource restored,
      RepairLog kept,
      Ledger first)
      throws IOException {
    this.ledger = ledger;
    this.undoes = undoes;
    this.original = original;
    this.restored = restored;
    this.kept = kept;
    for (AnalysisRecord analysis : ledger.analyses()) {
      if (analysis.name().equals(WITHOUT_EFFECT)
          && analysis.result().get("list") instanceof List<?> list) {
        list.forEach(place -> known.add(place((Map<?, ?>) place)));
        listed = true;
      }
    }
    takenBack = listed || first == null ? null : takenBack(first);
  }

  private Set<Place> takenBack(Ledger first) throws IOException {
    Set<Place> gone = new HashSet<>();
    first.forEachEdit(edit -> gone.add(Place.of(edit)));
    ledger.forEachEdit(edit -> gone.remove(Place.of(edit)));
    return gone;
  }

  private static Place place(Map<?, ?> map) {
    return new Place(
        (String) map.get("stage"),
        (Long) map.get("channel"),
        (Long) map.get("start"),
        (Long) map.get("end"));
  }

  @Override
  public Share share(StageId stage, Repair repair) throws IOException {
    Cursor cursor = cursor(stage);
    LedgerEdit edit = cursor.next;
    if (edit == null || !sameRange(edit, repair)) {
      if (edit != null && isPast(edit, repair)) {
        throw missing(edit);
      }
      return unlogged(stage, repair);
    }
    requireSameEvidence(edit, repair.evidence());
    cursor.advance();
    if (undoes.test(edit)) {
      return Share.NONE;
    }
    kept.add(stage, repair);
    return Share.WHOLE;
  }

  private Cursor cursor(StageId stage) throws IOException {
    Cursor cursor = cursors.get(stage);
    if (cursor == null) {
      cursor = new Cursor(ledger, stage);
      cursors.put(stage, cursor);
    }
    return cursor;
  }

  private Share unlogged(StageId stage, Repair repair) throws IOException {
    Place place = Place.of(stage, repair);
    boolean told = ledger.header().parent() == null || takenBack != null;
    if (told ? takenBack != null && takenBack.contains(place) : !known.contains(place)) {
      leftOutBefore++;
      return Share.NONE;
    }
    if (told && !unchanged(repair)) {
      throw new NotRepeatedException("repairs", "no other than the ledger's edits", place);
    }
    withoutEffect.add(place);
    return Share.WHERE_NONE_IS_LEFT_OUT;
  }

  private boolean unchanged(Repair repair) throws IOException {
    int count = repair.removed().length;
    int channels = original.format().channels();
    long[][] before = new long[channels][count];
    long[][] after = new long[channels][count];
    original.readWords(repair.start(), count, before, 0);
    restored.readWords(repair.start(), count, after, 0);
    return Arrays.equals(before[repair.channel()], after[repair.channel()]);
  }

  /**
   * Ends the comparison.
   *
   * @throws NotRepeatedException if the run did not find what the ledger holds
   */
  void finish() throws IOException {
    for (Map.Entry<String, Long> stage : ledger.totals().editsByStage().entrySet()) {
      boolean foundAny = StageId.ofKey(stage.getKey()).map(cursors::containsKey).orElse(false);
      if (stage.getValue() > 0 && !foundAny) {
        throw new NotRepeatedException("edits of " + stage.getKey(), stage.getValue(), "none");
      }
    }
    for (Cursor cursor : cursors.values()) {
      if (cursor.next != null) {
        throw missing(cursor.next);
      }
    }
    long expected = ledger.header().parent() == null ? 0 : ledger.header().parent().undoneInAll();
    boolean notTold = ledger.header().parent() != null && !listed && takenBack == null;
    if (notTold && leftOutBefore > expected) {
      throw NotRepeatedException.forWantOfTheFirst(
          ledger.header().parent(), leftOutBefore - expected);
    }
    if (leftOutBefore != expected) {
      throw new NotRepeatedException(
          "repairs that the ledger does not hold", expected + " taken back before", leftOutBefore);
    }
  }

  /** Repairs that were never edits, for the new ledger; null if there are none. */
  Map<String, Object> finding() {
    if (withoutEffect.isEmpty()) {
      return null;
    }
    Map<String, Object> finding = new LinkedHashMap<>();
    finding.put("places", withoutEffect.size());
    finding.put("list", withoutEffect);
    return finding;
  }

  private static NotRepeatedException missing(LedgerEdit edit) {
    return new NotRepeatedException(edit.place(), "found again", "not found");
  }

  private static boolean sameRange(LedgerEdit edit, Repair repair) {
    return edit.channel() == repair.channel()
        && edit.start() == repair.start()
        && edit.end() == repair.end();
  }

  /** Whether the edit can no longer be found. */
  private static boolean isPast(LedgerEdit edit, Repair repair) {
    return repair.start() > edit.start()
        || repair.start() == edit.start() && repair.channel() > edit.channel();
  }

  private static void requireSameEvidence(LedgerEdit edit, Repair.Evidence found) {
    boolean same =
        same(edit.statistic(), found.statistic())
            && same(edit.threshold(), found.threshold())
            && edit.method().equals(found.method())
            && edit.modelOrder() == found.modelOrder()
            && edit.gapStart() == found.gapStart()
            && edit.gapFrames() == found.gapFrames()
            && same(edit.uncertaintyDbfs(), found.uncertaintyDbfs());
    if (!same) {
      throw new NotRepeatedException(
          edit.place(),
          new Repair.Evidence(
              edit.statistic(),
              edit.threshold(),
              edit.method(),
              edit.modelOrder(),
              edit.gapStart(),
              (int) edit.gapFrames(),
              edit.uncertaintyDbfs()),
          found);
    }
  }

  /** A ledger has no word for infinity. */
  private static boolean same(double told, double found) {
    return Double.compare(told, Double.isFinite(found) ? found : Double.NaN) == 0;
  }

  @Override
  public void close() throws IOException {
    for (Cursor cursor : cursors.values()) {
      cursor.close();
    }
  }
}
