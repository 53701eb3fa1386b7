package org.groovemend.decisions;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.groovemend.audio.FilePath;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.sealed.Members;
import org.groovemend.sealed.SealedDocument;
import org.groovemend.sealed.SealedDocumentException;

/** Decisions as a sealed document, and back (docs/reference/decisions.md). */
public final class DecisionDocument {

  private static final String FORMAT = "groovemend-decisions";
  private static final long VERSION = 1;

  private DecisionDocument() {}

  /** Name of the decisions beside a ledger: {@code side.ledger.jsonl} has side.decisions.json. */
  public static String nameBeside(String ledgerName) {
    String end = ".ledger.jsonl";
    String stem =
        ledgerName.endsWith(end)
            ? ledgerName.substring(0, ledgerName.length() - end.length())
            : ledgerName;
    return stem + ".decisions.json";
  }

  /**
   * Name of the decisions about a ledger, beside it. A copy of which edits were taken back has
   * those by which that was done under its own name: they are about its parent, and not written
   * over.
   */
  public static String nameFor(Ledger ledger) {
    String name = nameBeside(FilePath.name(ledger.path()));
    LedgerParent parent = ledger.header().parent();
    return parent != null && name.equals(parent.decisions())
        ? name.replaceFirst("\\.decisions\\.json$", ".review.decisions.json")
        : name;
  }

  /**
   * Reads a file of decisions.
   *
   * @throws SealedDocumentException if it is not as it was written, or of a later version
   */
  public static DecisionFile read(Path file) throws IOException {
    return of(SealedDocument.read(file), file.toString());
  }

  /** As a document. */
  public static SealedDocument of(DecisionFile file) {
    Map<String, Object> content = new LinkedHashMap<>();
    content.put("format", FORMAT);
    content.put("version", VERSION);
    Map<String, Object> ledger = new LinkedHashMap<>();
    ledger.put("name", file.ledger().name());
    ledger.put("seal", file.ledger().seal());
    ledger.put("edits", file.ledger().edits());
    content.put("ledger", ledger);
    content.put("reviewer", file.reviewer());
    List<Object> rules = new ArrayList<>();
    for (Rule rule : file.rules()) {
      rules.add(map(rule));
    }
    content.put("rules", rules);
    List<Object> decisions = new ArrayList<>();
    for (Decision decision : file.decisions().values()) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("edit", decision.edit());
      map.put("verdict", decision.verdict() == null ? null : decision.verdict().key());
      map.put("comment", decision.comment());
      map.put("atUtc", decision.atUtc());
      decisions.add(map);
    }
    content.put("decisions", decisions);
    Map<String, Object> word = null;
    if (file.signOff() != null) {
      word = new LinkedHashMap<>();
      word.put("by", file.signOff().by());
      word.put("atUtc", file.signOff().atUtc());
    }
    content.put("signOff", word);
    return SealedDocument.of(content);
  }

  private static Map<String, Object> map(Rule rule) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("verdict", rule.verdict().key());
    map.put("stage", rule.stage());
    map.put("channel", rule.channel());
    map.put("fromFrame", rule.fromFrame());
    map.put("toFrame", rule.toFrame());
    map.put("belowMargin", rule.belowMargin());
    map.put("comment", rule.comment());
    map.put("atUtc", rule.atUtc());
    return map;
  }

  static DecisionFile of(SealedDocument document, String name) throws SealedDocumentException {
    document.require(FORMAT, VERSION, "file of decisions", "side.decisions.json", name);
    try {
      return read(new Members(name, document.content()));
    } catch (IllegalArgumentException e) {
      throw new SealedDocumentException(name + ": " + e.getMessage() + ".", e);
    }
  }

  private static DecisionFile read(Members members) throws SealedDocumentException {
    members.text("format");
    members.whole("version");
    Members about = members.object("ledger");
    LedgerName ledger =
        new LedgerName(about.text("name"), about.text("seal"), about.whole("edits"));
    about.none();
    String reviewer = members.text("reviewer");
    List<Rule> rules = new ArrayList<>();
    for (Members each : members.objects("rules")) {
      rules.add(rule(each));
    }
    SortedMap<Long, Decision> decisions = new TreeMap<>();
    for (Members each : members.objects("decisions")) {
      String verdict = each.textOrNull("verdict");
      Decision decision =
          new Decision(
              each.whole("edit"),
              verdict == null ? null : Verdict.ofKey(verdict),
              each.text("comment"),
              each.text("atUtc"));
      each.none();
      if (!decisions.isEmpty() && decision.edit() <= decisions.lastKey()) {
        throw new IllegalArgumentException("the decisions are not in the order of their edits");
      }
      decisions.put(decision.edit(), decision);
    }
    Members word = members.objectOrNull("signOff");
    SignOff signOff = null;
    if (word != null) {
      signOff = new SignOff(word.text("by"), word.text("atUtc"));
      word.none();
    }
    members.none();
    return new DecisionFile(ledger, reviewer, rules, decisions, signOff);
  }

  private static Rule rule(Members members) throws SealedDocumentException {
    Verdict verdict = Verdict.ofKey(members.text("verdict"));
    Long channel = members.wholeOrNull("channel");
    if (channel != null && (channel < 0 || channel > 1)) {
      throw new IllegalArgumentException("there is no channel " + channel);
    }
    Rule rule =
        new Rule(
            verdict,
            members.textOrNull("stage"),
            channel == null ? null : channel.intValue(),
            members.wholeOrNull("fromFrame"),
            members.wholeOrNull("toFrame"),
            members.numberOrNull("belowMargin"),
            members.text("comment"),
            members.text("atUtc"));
    members.none();
    return rule;
  }
}
