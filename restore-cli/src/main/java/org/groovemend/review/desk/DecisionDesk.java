package org.groovemend.review.desk;

import java.io.Closeable;
import java.io.IOException;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.function.UnaryOperator;
import org.groovemend.decisions.Decision;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.DecisionStore;
import org.groovemend.decisions.EditPlace;
import org.groovemend.decisions.Rule;
import org.groovemend.decisions.SignOff;
import org.groovemend.decisions.Verdict;
import org.groovemend.review.side.EditTable;

/**
 * Where decisions are made: each goes to the disk before it is told, and the last ones can be taken
 * back as long as the review is open.
 *
 * <p>Safe for use by several threads.
 */
public final class DecisionDesk implements Closeable {

  /** A mark of an edit: bits 0 and 1 the verdict, then these. */
  static final int OWN = 4;

  static final int BY_RULE = 8;
  static final int COMMENT = 16;

  private static final int MOST_STEPS_BACK = 100;

  /** How a change is undone. */
  private record Step(String what, UnaryOperator<DecisionFile> back, long edit) {}

  private final DecisionStore store;
  private final EditTable edits;
  private final Clock clock;
  private final byte[] marks;
  private final Deque<Step> steps = new ArrayDeque<>();
  private long revision;

  public DecisionDesk(DecisionStore store, EditTable edits, Clock clock) {
    this.store = store;
    this.edits = edits;
    this.clock = clock;
    this.marks = new byte[edits.size()];
    markAll();
  }

  /**
   * Decides about one edit.
   *
   * @param verdict null to leave the verdict as it is and change the comment alone
   * @param comment null to leave the comment as it is
   */
  public synchronized Outcome decide(long edit, Verdict verdict, String comment)
      throws IOException {
    place(edit);
    Decision before = store.decisions().decisions().get(edit);
    Verdict next = verdict != null ? verdict : before != null ? before.verdict() : null;
    String words = comment != null ? comment : before != null ? before.comment() : "";
    // a comment alone decides nothing, and an empty one says nothing
    Decision said =
        next == null && words.isEmpty() ? null : new Decision(edit, next, words, time());
    String what = verdict == null ? "the comment on edit " + edit : next.key() + " edit " + edit;
    return change(
        what,
        file -> put(file, edit, said),
        file -> put(file, edit, before),
        edit,
        verdict == null);
  }

  /** Nothing more is said about one edit; rules count for it again. */
  public synchronized Outcome forget(long edit) throws IOException {
    place(edit);
    Decision before = store.decisions().decisions().get(edit);
    if (before == null) {
      throw new IllegalStateException("nothing was said of edit " + edit + " by itself");
    }
    return change(
        "clear edit " + edit, file -> file.without(edit), file -> file.with(before), edit);
  }

  private static DecisionFile put(DecisionFile file, long edit, Decision said) {
    return said == null ? file.without(edit) : file.with(said);
  }

  /** Decides about all edits that meet some conditions. */
  public synchronized Outcome addRule(
      Verdict verdict,
      String stage,
      Integer channel,
      Long fromFrame,
      Long toFrame,
      Double belowMargin,
      String comment)
      throws IOException {
    if (stage != null && !edits.stages().contains(stage)) {
      throw new IllegalArgumentException("no edit is of a stage " + stage);
    }
    Rule rule = new Rule(verdict, stage, channel, fromFrame, toFrame, belowMargin, comment, time());
    return change(
        "a rule",
        file -> file.with(rule),
        file -> file.withoutRule(file.rules().lastIndexOf(rule)),
        0);
  }

  /**
   * Takes a rule away.
   *
   * @param index from 0, oldest first
   */
  public synchronized Outcome dropRule(int index) throws IOException {
    List<Rule> rules = store.decisions().rules();
    if (index < 0 || index >= rules.size()) {
      throw new IllegalArgumentException("there is no rule " + (index + 1));
    }
    Rule rule = rules.get(index);
    return change(
        "taking rule " + (index + 1) + " away",
        file -> file.withoutRule(index),
        file -> insert(file, index, rule),
        0);
  }

  private static DecisionFile insert(DecisionFile file, int index, Rule rule) {
    List<Rule> all = new ArrayList<>(file.rules());
    all.add(index, rule);
    return new DecisionFile(file.ledger(), file.reviewer(), all, file.decisions(), file.signOff());
  }

  /** Takes the last change back that was made since the review was opened. */
  public synchronized Outcome back() throws IOException {
    Step step = steps.peek();
    if (step == null) {
      throw new IllegalStateException("nothing was decided since the review was opened");
    }
    store.change(step.back);
    steps.pop();
    return done(step.edit);
  }

  /** Signs off; nothing is decided after it until {@link #reopen}. */
  public synchronized Outcome sign(String by) throws IOException {
    if (store.decisions().signOff() != null) {
      throw new IllegalStateException("it is signed off already");
    }
    SignOff word = new SignOff(by.strip(), time());
    store.change(file -> file.by(word.by()).signed(word));
    steps.clear();
    return done(0);
  }

  /** Takes the sign-off back. */
  public synchronized Outcome reopen() throws IOException {
    if (store.decisions().signOff() == null) {
      throw new IllegalStateException("it is not signed off");
    }
    store.change(file -> file.signed(null));
    steps.clear();
    return done(0);
  }

  private Outcome change(
      String what, UnaryOperator<DecisionFile> change, UnaryOperator<DecisionFile> back, long edit)
      throws IOException {
    return change(what, change, back, edit, false);
  }

  private Outcome change(
      String what,
      UnaryOperator<DecisionFile> change,
      UnaryOperator<DecisionFile> back,
      long edit,
      boolean comment)
      throws IOException {
    store.change(change);
    Step last = steps.peek();
    // a comment is saved while it is typed: all of it is one step back
    boolean goesOn = last != null && comment && last.edit == edit && last.what.equals(what);
    if (!goesOn) {
      steps.push(new Step(what, back, edit));
    }
    if (steps.size() > MOST_STEPS_BACK) {
      steps.removeLast();
    }
    return done(edit);
  }

  private Outcome done(long edit) {
    revision++;
    if (edit == 0) {
      markAll();
      return new Outcome(0, 0);
    }
    int i = (int) edit - 1;
    marks[i] = mark(store.decisions(), i);
    return new Outcome(edit, marks[i]);
  }

  private void markAll() {
    DecisionFile file = store.decisions();
    for (int i = 0; i < marks.length; i++) {
      marks[i] = mark(file, i);
    }
  }

  private byte mark(DecisionFile file, int i) {
    EditPlace place = edits.place(i);
    Decision own = file.decisions().get(place.number());
    int mark = file.verdictOf(place).ordinal();
    if (own != null && !own.comment().isEmpty()) {
      mark |= COMMENT;
    }
    if (own != null && own.verdict() != null) {
      mark |= OWN;
    } else if (file.rules().stream().anyMatch(rule -> rule.meets(place))) {
      mark |= BY_RULE;
    }
    return (byte) mark;
  }

  private EditPlace place(long edit) {
    if (edit < 1 || edit > edits.size()) {
      throw new IllegalArgumentException("there is no edit " + edit);
    }
    return edits.place((int) edit - 1);
  }

  private String time() {
    return clock.instant().truncatedTo(ChronoUnit.SECONDS).toString();
  }

  /** A mark for every edit, in the order of their numbers. */
  public synchronized byte[] marks() {
    return marks.clone();
  }

  /** How many edits a rule would meet. */
  public int meets(Rule rule) {
    int count = 0;
    for (int i = 0; i < edits.size(); i++) {
      count += rule.meets(edits.place(i)) ? 1 : 0;
    }
    return count;
  }

  /** Everything but the decisions about single edits. */
  public synchronized DeskState state() {
    DecisionFile file = store.decisions();
    long[] byVerdict = new long[Verdict.values().length];
    long said = 0;
    for (byte mark : marks) {
      byVerdict[mark & 3]++;
      said += (mark & (OWN | BY_RULE)) != 0 ? 1 : 0;
    }
    return new DeskState(
        revision, file, byVerdict, said, steps.isEmpty() ? null : steps.peek().what);
  }

  @Override
  public void close() throws IOException {
    store.close();
  }
}
