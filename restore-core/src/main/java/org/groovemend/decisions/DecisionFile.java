package org.groovemend.decisions;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.SortedMap;
import java.util.TreeMap;
import org.groovemend.ledger.LedgerEdit;

/**
 * All that was decided about the edits of one ledger. A decision about a single edit counts before
 * every rule, a comment alone decides nothing; of several rules that meet an edit the last one
 * counts; an edit of which nothing was decided stays.
 *
 * @param ledger which ledger
 * @param reviewer who decides; may be empty
 * @param rules in the order in which they were made
 * @param decisions by number of the edit
 * @param signOff null as long as the review is open
 */
public record DecisionFile(
    LedgerName ledger,
    String reviewer,
    List<Rule> rules,
    SortedMap<Long, Decision> decisions,
    SignOff signOff) {

  public DecisionFile {
    Objects.requireNonNull(ledger, "ledger");
    Objects.requireNonNull(reviewer, "reviewer");
    rules = List.copyOf(rules);
    decisions = Collections.unmodifiableSortedMap(new TreeMap<>(decisions));
    if (!decisions.isEmpty() && decisions.lastKey() > ledger.edits()) {
      throw new IllegalArgumentException(
          "there is no edit "
              + decisions.lastKey()
              + " in the ledger "
              + ledger.name()
              + "; its edits are 1 to "
              + ledger.edits());
    }
  }

  /** Nothing decided yet. */
  public static DecisionFile empty(LedgerName ledger, String reviewer) {
    return new DecisionFile(ledger, reviewer, List.of(), new TreeMap<>(), null);
  }

  /** With this decision in place of an earlier one about the same edit. */
  public DecisionFile with(Decision decision) {
    requireOpen();
    SortedMap<Long, Decision> all = new TreeMap<>(decisions);
    all.put(decision.edit(), decision);
    return new DecisionFile(ledger, reviewer, rules, all, null);
  }

  /** Without a decision of its own about this edit. */
  public DecisionFile without(long edit) {
    requireOpen();
    SortedMap<Long, Decision> all = new TreeMap<>(decisions);
    all.remove(edit);
    return new DecisionFile(ledger, reviewer, rules, all, null);
  }

  /** With one more rule, which counts before the earlier ones. */
  public DecisionFile with(Rule rule) {
    requireOpen();
    List<Rule> all = new ArrayList<>(rules);
    all.add(rule);
    return new DecisionFile(ledger, reviewer, all, decisions, null);
  }

  /**
   * Without one of the rules.
   *
   * @param index from 0
   */
  public DecisionFile withoutRule(int index) {
    requireOpen();
    List<Rule> all = new ArrayList<>(rules);
    all.remove(index);
    return new DecisionFile(ledger, reviewer, all, decisions, null);
  }

  /** By somebody else from now on. */
  public DecisionFile by(String other) {
    requireOpen();
    return new DecisionFile(ledger, other, rules, decisions, null);
  }

  /** Signed off, or open again with null. */
  public DecisionFile signed(SignOff word) {
    return new DecisionFile(ledger, reviewer, rules, decisions, word);
  }

  /**
   * What is to become of an edit.
   *
   * @param edit of the ledger that this is about
   */
  public Verdict verdictOf(LedgerEdit edit) {
    return verdictOf(EditPlace.of(edit));
  }

  /** What is to become of the edit there. */
  public Verdict verdictOf(EditPlace edit) {
    Decision own = decisions.get(edit.number());
    if (own != null && own.verdict() != null) {
      return own.verdict();
    }
    Rule rule = ruleFor(edit);
    return rule != null ? rule.verdict() : Verdict.KEEP;
  }

  /** What was said of why that is to become of an edit; "" if nothing was. */
  public String commentOn(LedgerEdit edit) {
    Decision own = decisions.get(edit.number());
    if (own != null) {
      return own.comment();
    }
    Rule rule = ruleFor(EditPlace.of(edit));
    return rule != null ? rule.comment() : "";
  }

  /** The last rule that an edit meets counts; null if it meets none. */
  private Rule ruleFor(EditPlace edit) {
    for (int i = rules.size() - 1; i >= 0; i--) {
      if (rules.get(i).meets(edit)) {
        return rules.get(i);
      }
    }
    return null;
  }

  private void requireOpen() {
    if (signOff != null) {
      throw new IllegalStateException(
          "the decisions were signed off by " + signOff.by() + "; open them again to change them");
    }
  }
}
