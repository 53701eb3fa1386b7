package org.groovemend.lineage;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.Verdict;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.Sha256;
import org.groovemend.sealed.SealedDocumentException;

/**
 * Walks from a ledger to the one it was made of, and on to that of the first treatment. Reads only;
 * the audio files of the forebears are not looked at.
 *
 * <p>For each generation the checks are {@link #LEDGER}, {@link #DECISIONS}, {@link #ORIGINAL},
 * {@link #TREATMENT}, {@link #EDITS}, from the second on with {@code -2}, {@code -3} ... behind the
 * name. A first treatment has none of them.
 */
public final class Lineage {

  /** The parent's ledger is undamaged and has the seal that its child names. */
  public static final String LEDGER = "parent-ledger";

  /** The decisions are those that the child names, and about the parent. */
  public static final String DECISIONS = "parent-decisions";

  /** Both speak of the same original file. */
  public static final String ORIGINAL = "parent-original";

  /** Both were treated alike: parameters, stages, dither. */
  public static final String TREATMENT = "parent-treatment";

  /** The child's edits are those of the parent without the ones that were taken back. */
  public static final String EDITS = "parent-edits";

  private static final List<String> ALL = List.of(LEDGER, DECISIONS, ORIGINAL, TREATMENT, EDITS);

  private final Forebears forebears;
  private final List<Check> checks = new ArrayList<>();
  private int generation;

  private Lineage(List<Path> places) {
    this.forebears = new Forebears(places);
  }

  /**
   * All checks from a ledger back to the first treatment, or to the first forebear that is not at
   * hand.
   *
   * @param ledger where to begin; undamaged
   * @param places ledgers and folders of ledgers that do not lie beside their descendants
   */
  public static List<Check> check(Ledger ledger, List<Path> places) throws IOException {
    Lineage lineage = new Lineage(places);
    for (Ledger each = ledger; each != null && each.header().parent() != null; ) {
      lineage.generation++;
      each = lineage.step(each);
    }
    return lineage.checks;
  }

  /** True if a check of this name is one of a lineage, of whatever generation. */
  public static boolean isAbout(String check) {
    return ALL.stream().anyMatch(name -> check.equals(name) || check.startsWith(name + "-"));
  }

  private String name(String check) {
    return generation == 1 ? check : check + "-" + generation;
  }

  /** Checks one link; the parent, or null if it cannot be relied on. */
  private Ledger step(Ledger child) throws IOException {
    Ledger parent = find(child);
    DecisionFile decisions = decisions(child);
    if (parent == null) {
      String why = "The parent's ledger is not there to compare with.";
      for (String check : List.of(ORIGINAL, TREATMENT, EDITS)) {
        checks.add(Check.notChecked(name(check), why));
      }
      return null;
    }
    checks.add(original(child, parent));
    checks.add(treatment(child.header(), parent.header()));
    checks.add(edits(child, parent, decisions));
    return parent;
  }

  private Ledger find(Ledger child) throws IOException {
    LedgerParent link = child.header().parent();
    Forebears.Found found = forebears.parent(child);
    if (found.ledger() != null) {
      checks.add(
          Check.holds(
              name(LEDGER),
              link.seal(),
              "The ledger descends from " + link.ledger() + ", which is undamaged."));
    } else if (found.trouble() != null) {
      checks.add(
          Check.fails(
              name(LEDGER),
              "seal " + link.seal(),
              found.foundSeal().isEmpty() ? "" : "seal " + found.foundSeal(),
              "The parent " + link.ledger() + " is not the one it should be: " + found.trouble()));
    } else {
      checks.add(
          Check.notChecked(
              name(LEDGER),
              "The ledger it descends from, "
                  + link.ledger()
                  + ", is not at hand; say where it is with --parent."));
    }
    return found.ledger();
  }

  /** What was decided, or null if that is not known for sure. */
  private DecisionFile decisions(Ledger child) throws IOException {
    LedgerParent link = child.header().parent();
    if (link.decisions() == null) {
      checks.add(Check.notChecked(name(DECISIONS), "The ledger names no file of decisions."));
      return null;
    }
    Check trouble = null;
    for (Path candidate : forebears.decisionsNamed(child)) {
      String sha256 = Sha256.of(candidate);
      if (!sha256.equals(link.decisionsSha256())) {
        trouble =
            Check.fails(
                name(DECISIONS),
                link.decisionsSha256(),
                sha256,
                "The decisions " + candidate + " are not those by which edits were taken back.");
        continue;
      }
      try {
        DecisionFile read = DecisionDocument.read(candidate);
        if (read.ledger().seal().equals(link.seal())) {
          checks.add(
              Check.holds(
                  name(DECISIONS),
                  sha256,
                  "The decisions "
                      + link.decisions()
                      + " are as they were when edits were undone."));
          return read;
        }
        trouble =
            Check.fails(
                name(DECISIONS),
                link.seal(),
                read.ledger().seal(),
                "The decisions " + candidate + " are about another ledger than the parent.");
      } catch (SealedDocumentException e) {
        trouble = Check.fails(name(DECISIONS), link.decisionsSha256(), "", e.getMessage());
      }
    }
    checks.add(
        trouble != null
            ? trouble
            : Check.notChecked(
                name(DECISIONS), "The decisions " + link.decisions() + " are not at hand."));
    return null;
  }

  private Check original(Ledger child, Ledger parent) {
    FileFacts expected = parent.header().original();
    FileFacts found = child.header().original();
    return expected.equals(found)
        ? Check.holds(
            name(ORIGINAL),
            found.sha256(),
            "Both go back to the same original, " + found.name() + ".")
        : Check.fails(
            name(ORIGINAL),
            expected.toString(),
            found.toString(),
            "The ledger and its parent speak of different originals.");
  }

  private Check treatment(LedgerHeader child, LedgerHeader parent) {
    boolean alike =
        child.treatment().equals(parent.treatment())
            && child.capturedThrough().equals(parent.capturedThrough())
            && child.stages().equals(parent.stages())
            && child.dither().equals(parent.dither());
    return alike
        ? Check.holds(name(TREATMENT), "", "Both hold the same treatment.")
        : Check.fails(
            name(TREATMENT),
            parent.treatment() + ", " + parent.stages() + ", " + parent.dither(),
            child.treatment() + ", " + child.stages() + ", " + child.dither(),
            "The ledger and its parent hold different treatments.");
  }

  private Check edits(Ledger child, Ledger parent, DecisionFile decisions) throws IOException {
    LedgerParent link = child.header().parent();
    LedgerParent before = parent.header().parent();
    KeptEdits kept =
        KeptEdits.compare(
            parent,
            child,
            decisions == null ? null : edit -> decisions.verdictOf(edit) == Verdict.UNDO);
    String expected =
        counts(
            parent.totals().edits(),
            kept.undone(),
            kept.undone() + (before == null ? 0 : before.undoneInAll()));
    String found = counts(link.edits(), link.undone(), link.undoneInAll());
    if (kept.mismatchCount() == 0 && expected.equals(found)) {
      return Check.holds(
          name(EDITS),
          found,
          "The edits are those of the parent without the "
              + link.undone()
              + " that were taken back"
              + (decisions == null ? "; whether the right ones were, was not checked." : "."));
    }
    return new Check(
        name(EDITS),
        Check.Outcome.FAILS,
        expected,
        found,
        "The edits are not those of the parent without the ones that were taken back.",
        kept.mismatches(),
        Math.max(1, kept.mismatchCount()));
  }

  private static String counts(long edits, long undone, long inAll) {
    return edits + " edits, " + undone + " taken back, " + inAll + " in all";
  }
}
