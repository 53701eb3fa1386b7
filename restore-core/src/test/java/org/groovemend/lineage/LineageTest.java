package org.groovemend.lineage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.groovemend.decisions.DecisionDocument;
import org.groovemend.decisions.DecisionFile;
import org.groovemend.decisions.LedgerName;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Check.Outcome;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerParent;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.ledger.Mismatch;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The released child of version 2, whole and with each link of its lineage broken by hand. */
class LineageTest {

  private static final String PARENT = "side.ledger.jsonl";
  private static final String CHILD = "side.undo-1.ledger.jsonl";
  private static final String DECISIONS = "side.undo-1.decisions.json";

  @TempDir Path folder;

  @BeforeEach
  void copyReleasedFiles() throws IOException {
    for (String name : List.of(PARENT, CHILD, DECISIONS)) {
      try (InputStream in =
          LineageTest.class.getResourceAsStream("/fixtures/ledger/v2/repairs/" + name)) {
        Files.write(folder.resolve(name), in.readAllBytes());
      }
    }
  }

  private List<Check> check(Path... places) throws IOException {
    return Lineage.check(Ledger.open(folder.resolve(CHILD)), List.of(places));
  }

  private static Map<String, Outcome> outcomes(List<Check> checks) {
    Map<String, Outcome> outcomes = new java.util.LinkedHashMap<>();
    checks.forEach(check -> outcomes.put(check.name(), check.outcome()));
    return outcomes;
  }

  private static List<String> names(List<Check> checks, Outcome outcome) {
    return checks.stream().filter(c -> c.outcome() == outcome).map(Check::name).toList();
  }

  private static Check named(List<Check> checks, String name) {
    return checks.stream().filter(c -> c.name().equals(name)).findFirst().orElseThrow();
  }

  /** The child written anew, with a header and edits of our own making. */
  private void rewrite(UnaryOperator<LedgerHeader> header, UnaryOperator<List<LedgerEdit>> edits)
      throws IOException {
    Ledger child = Ledger.open(folder.resolve(CHILD));
    List<LedgerEdit> all = new ArrayList<>();
    child.forEachEdit(all::add);
    write(CHILD, child, header.apply(child.header()), edits.apply(all));
  }

  private void write(String name, Ledger like, LedgerHeader header, List<LedgerEdit> edits)
      throws IOException {
    Path made = folder.resolve(name + ".new");
    try (LedgerWriter writer = new LedgerWriter(Files.newOutputStream(made))) {
      writer.header(header);
      like.describeOriginal(writer::container);
      for (AnalysisRecord analysis : like.analyses()) {
        writer.analysis(analysis.name(), analysis.result());
      }
      int number = 1;
      for (LedgerEdit edit : edits) {
        writer.edit(edit.withNumberAndAfter(number++, edit.after()));
      }
      LedgerTotals totals = like.totals();
      writer.totals(
          new LedgerTotals(
              edits.size(),
              edits.isEmpty() ? Map.of() : Map.of("clicks", (long) edits.size()),
              totals.changedSamples(),
              0,
              totals.restored(),
              totals.removed(),
              List.of()));
      writer.seal();
    }
    Files.move(made, folder.resolve(name), java.nio.file.StandardCopyOption.REPLACE_EXISTING);
  }

  private static LedgerHeader with(LedgerHeader header, LedgerParent parent) {
    return with(header, header.original(), header.treatment(), parent);
  }

  private static LedgerHeader with(
      LedgerHeader header, FileFacts original, Map<String, Object> treatment, LedgerParent parent) {
    return new LedgerHeader(
        header.tool(),
        header.toolVersion(),
        header.createdUtc(),
        header.environment(),
        original,
        header.capturedThrough(),
        treatment,
        header.stages(),
        header.wholeSignal(),
        header.dither(),
        parent);
  }

  @Test
  void anUntouchedLineageHoldsInEveryCheck() throws IOException {
    List<Check> checks = check();
    assertThat(outcomes(checks).keySet())
        .containsExactly(
            Lineage.LEDGER, Lineage.DECISIONS, Lineage.ORIGINAL, Lineage.TREATMENT, Lineage.EDITS);
    assertThat(names(checks, Outcome.HOLDS)).hasSize(5);
  }

  @Test
  void aFirstTreatmentHasNoneOfTheChecks() throws IOException {
    assertThat(Lineage.check(Ledger.open(folder.resolve(PARENT)), List.of())).isEmpty();
  }

  @Test
  void aMissingParentIsNotCheckedAndFoundWhereItIsSaidToLie() throws IOException {
    Path vault = Files.createDirectory(folder.resolve("vault"));
    Path renamed = vault.resolve("renamed.jsonl");
    Files.move(folder.resolve(PARENT), renamed);
    List<Check> checks = check();
    assertThat(names(checks, Outcome.FAILS)).isEmpty();
    assertThat(names(checks, Outcome.HOLDS)).containsExactly(Lineage.DECISIONS);
    assertThat(named(checks, Lineage.LEDGER).words()).contains(PARENT).contains("--parent");
    assertThat(names(check(renamed), Outcome.HOLDS)).hasSize(5);
    Files.move(renamed, vault.resolve(PARENT));
    assertThat(names(check(vault), Outcome.HOLDS)).hasSize(5);
    Files.delete(folder.resolve(DECISIONS));
    checks = check(vault);
    assertThat(names(checks, Outcome.NOT_CHECKED)).containsExactly(Lineage.DECISIONS);
    assertThat(named(checks, Lineage.EDITS).words()).contains("was not checked");
  }

  @Test
  void aHintIsFollowedOnlyWhereItIsPlainAndCountsOnlyBySeal() throws IOException {
    Path vault = Files.createDirectories(folder.resolve("a").resolve("vault"));
    Path made = Files.createDirectories(folder.resolve("b"));
    Files.move(folder.resolve(PARENT), vault.resolve(PARENT));
    Files.move(folder.resolve(CHILD), made.resolve(CHILD));
    Files.move(folder.resolve(DECISIONS), made.resolve(DECISIONS));
    Map<String, Object> hint = ParentPlace.between(made, vault);
    assertThat(hint).isEqualTo(Map.of("folder", "../a/vault"));
    assertThat(ParentPlace.between(made, made)).isNull();
    // through the root of the disk alone
    assertThat(ParentPlace.between(folder, folder.getRoot())).isNull();
    hinted(made, hint);
    assertThat(names(checkIn(made), Outcome.HOLDS)).hasSize(5);
    for (String folder :
        List.of(
            vault.toAbsolutePath().toString(),
            "",
            ".",
            "..//a/vault",
            "../a/../a/vault",
            "../a/./vault",
            "../a\\vault",
            "../".repeat(20) + "a/vault",
            "../a/vault/")) {
      hinted(made, Map.of("folder", folder));
      assertThat(named(checkIn(made), Lineage.LEDGER).outcome())
          .as(folder)
          .isEqualTo(Outcome.NOT_CHECKED);
    }
    hinted(made, Map.of("folder", 7L));
    assertThat(named(checkIn(made), Lineage.LEDGER).outcome()).isEqualTo(Outcome.NOT_CHECKED);
    // another ledger lies there now
    hinted(made, hint);
    Files.copy(
        made.resolve(CHILD),
        vault.resolve(PARENT),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    assertThat(named(checkIn(made), Lineage.LEDGER).outcome()).isEqualTo(Outcome.FAILS);
  }

  private static List<Check> checkIn(Path place) throws IOException {
    return Lineage.check(Ledger.open(place.resolve(CHILD)), List.of());
  }

  /** The child with this hint, wherever its parent lies. */
  private static void hinted(Path place, Map<String, Object> hint) throws IOException {
    Ledger child = Ledger.open(place.resolve(CHILD));
    Path made = place.resolve("new");
    try (LedgerWriter writer = new LedgerWriter(Files.newOutputStream(made))) {
      writer.header(child.header());
      child.describeOriginal(writer::container);
      writer.analysis(ParentPlace.FINDING, hint);
      child.forEachEdit(writer::edit);
      writer.totals(child.totals());
      writer.seal();
    }
    Files.move(made, place.resolve(CHILD), java.nio.file.StandardCopyOption.REPLACE_EXISTING);
  }

  @Test
  void eachParentMayLieInAFolderBelowItsChildAsInABag() throws IOException {
    Path below = Files.createDirectory(folder.resolve(Forebears.FOLDER));
    Files.move(folder.resolve(PARENT), below.resolve(PARENT));
    assertThat(names(check(), Outcome.HOLDS)).hasSize(5);
  }

  @Test
  void anotherOrADamagedParentFailsByName() throws IOException {
    Files.copy(
        folder.resolve(CHILD),
        folder.resolve(PARENT),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    List<Check> checks = check();
    assertThat(names(checks, Outcome.FAILS)).containsExactly(Lineage.LEDGER);
    assertThat(named(checks, Lineage.LEDGER).words()).contains(PARENT).contains("another ledger");
    Files.writeString(folder.resolve(PARENT), "{\"record\":\"header\"");
    checks = check();
    assertThat(names(checks, Outcome.FAILS)).containsExactly(Lineage.LEDGER);
    assertThat(named(checks, Lineage.LEDGER).words()).contains("line 1 of the ledger");
  }

  @Test
  void everyFlippedBitOfTheDecisionsIsNoticed() throws IOException {
    Path file = folder.resolve(DECISIONS);
    byte[] good = Files.readAllBytes(file);
    for (int bit = 0; bit < 8 * good.length; bit++) {
      byte[] bytes = good.clone();
      bytes[bit / 8] ^= (byte) (1 << bit % 8);
      Files.write(file, bytes);
      assertThat(named(check(), Lineage.DECISIONS).outcome())
          .as("bit %d", bit)
          .isEqualTo(Outcome.FAILS);
    }
  }

  @Test
  void decisionsAboutAnotherLedgerFail() throws IOException {
    Ledger child = Ledger.open(folder.resolve(CHILD));
    byte[] other =
        DecisionDocument.of(DecisionFile.empty(LedgerName.of(child), "an invented reviewer"))
            .bytes();
    Files.write(folder.resolve(DECISIONS), other);
    rewrite(
        h ->
            with(
                h,
                new LedgerParent(PARENT, h.parent().seal(), DECISIONS, Sha256.of(other), 3, 1, 1)),
        edits -> edits);
    List<Check> checks = check();
    assertThat(names(checks, Outcome.FAILS)).containsExactly(Lineage.DECISIONS);
    assertThat(named(checks, Lineage.DECISIONS).words()).contains("another ledger");
  }

  @Test
  void anEditTooFewTooManyOrAlteredIsNamed() throws IOException {
    List<LedgerEdit> parents = new ArrayList<>();
    Ledger.open(folder.resolve(PARENT)).forEachEdit(parents::add);
    // the decisions say edit 2; the ledger lost edit 3 as well
    rewrite(h -> with(h, counts(h, 2, 2)), edits -> List.of(edits.get(0)));
    Check lost = named(check(), Lineage.EDITS);
    assertThat(lost.outcome()).isEqualTo(Outcome.FAILS);
    assertThat(lost.mismatches())
        .extracting(Mismatch::place)
        .containsExactly("edit 3 of " + PARENT);

    copyReleasedFiles();
    rewrite(h -> with(h, counts(h, 0, 0)), edits -> parents);
    Check kept = named(check(), Lineage.EDITS);
    assertThat(kept.mismatches())
        .extracting(Mismatch::toString)
        .singleElement()
        .asString()
        .contains("edit 2 of " + CHILD)
        .contains("taken back by the decisions");

    copyReleasedFiles();
    rewrite(h -> h, edits -> List.of(edits.get(0), moved(edits.get(1))));
    assertThat(named(check(), Lineage.EDITS).mismatchCount()).isEqualTo(2);
  }

  private static LedgerEdit moved(LedgerEdit e) {
    return new LedgerEdit(
        e.number(),
        e.stage(),
        e.channel(),
        e.start() - 1,
        e.end() - 1,
        e.statistic(),
        e.threshold(),
        e.method(),
        e.modelOrder(),
        e.gapStart(),
        e.gapFrames(),
        e.uncertaintyDbfs(),
        e.before(),
        e.after(),
        e.original());
  }

  private static LedgerParent counts(LedgerHeader header, long undone, long inAll) {
    LedgerParent p = header.parent();
    return new LedgerParent(
        p.ledger(), p.seal(), p.decisions(), p.decisionsSha256(), p.edits(), undone, inAll);
  }

  @Test
  void countsThatDoNotAgreeFail() throws IOException {
    rewrite(h -> with(h, counts(h, 1, 4)), edits -> edits);
    Check check = named(check(), Lineage.EDITS);
    assertThat(check.outcome()).isEqualTo(Outcome.FAILS);
    assertThat(check.expected()).endsWith("1 in all");
    assertThat(check.found()).endsWith("4 in all");
  }

  @Test
  void anotherOriginalOrTreatmentFails() throws IOException {
    rewrite(
        h ->
            with(
                h,
                new FileFacts(
                    "other.wav",
                    h.original().bytes(),
                    h.original().sha256(),
                    h.original().samplesSha256(),
                    h.original().frames(),
                    h.original().format(),
                    h.original().container()),
                Map.of("clicks", 1L),
                h.parent()),
        edits -> edits);
    assertThat(names(check(), Outcome.FAILS)).containsExactly(Lineage.ORIGINAL, Lineage.TREATMENT);
  }

  @Test
  void grandchildrenAreFollowedToTheFirstTreatment() throws IOException {
    Ledger child = Ledger.open(folder.resolve(CHILD));
    byte[] decisions =
        DecisionDocument.of(
                DecisionFile.empty(LedgerName.of(child), "")
                    .with(
                        new org.groovemend.decisions.Rule(
                            org.groovemend.decisions.Verdict.UNDO,
                            "clicks",
                            null,
                            null,
                            null,
                            null,
                            "",
                            "2026-03-03T12:00:00Z")))
            .bytes();
    Files.write(folder.resolve("side.undo-2.decisions.json"), decisions);
    String grandchild = "side.undo-2.ledger.jsonl";
    write(
        grandchild,
        child,
        with(
            child.header(),
            new LedgerParent(
                CHILD, child.seal(), "side.undo-2.decisions.json", Sha256.of(decisions), 2, 2, 3)),
        List.of());
    List<Check> checks = Lineage.check(Ledger.open(folder.resolve(grandchild)), List.of());
    assertThat(names(checks, Outcome.HOLDS)).hasSize(10).contains(Lineage.EDITS + "-2");
    // the link further back breaks: the near ones still hold
    byte[] bytes = Files.readAllBytes(folder.resolve(PARENT));
    bytes[bytes.length / 2] ^= 1;
    Files.write(folder.resolve(PARENT), bytes);
    checks = Lineage.check(Ledger.open(folder.resolve(grandchild)), List.of());
    assertThat(names(checks, Outcome.FAILS)).containsExactly(Lineage.LEDGER + "-2");
  }
}
