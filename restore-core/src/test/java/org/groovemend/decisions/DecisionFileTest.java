package org.groovemend.decisions;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.Sha256;
import org.junit.jupiter.api.Test;

class DecisionFileTest {

  private static final String AT = "2026-03-01T12:00:00Z";
  private static final String NONE = Sha256.of(new byte[0]);
  private static final LedgerName LEDGER = new LedgerName("side.ledger.jsonl", NONE, 9);

  private static LedgerEdit edit(
      long number, String stage, int channel, long start, double margin) {
    return new LedgerEdit(
        number,
        stage,
        channel,
        start,
        start + 10,
        5 + margin,
        5,
        "lsar",
        30,
        start,
        10,
        -60,
        NONE,
        NONE,
        new byte[20]);
  }

  private static Rule rule(
      Verdict verdict, String stage, Integer channel, Long from, Long to, Double below) {
    return new Rule(verdict, stage, channel, from, to, below, "", AT);
  }

  @Test
  void nothingSaidMeansKeep() {
    assertThat(DecisionFile.empty(LEDGER, "").verdictOf(edit(1, "clicks", 0, 0, 1)))
        .isEqualTo(Verdict.KEEP);
  }

  @Test
  void aDecisionBeatsRulesAndTheLaterRuleTheEarlier() {
    DecisionFile file =
        DecisionFile.empty(LEDGER, "R. Iverdal")
            .with(rule(Verdict.UNDO, "clicks", null, null, null, null))
            .with(rule(Verdict.ASK, null, 1, null, null, null))
            .with(new Decision(3, Verdict.KEEP, "a real click", AT));
    assertThat(file.verdictOf(edit(1, "clicks", 0, 0, 1))).isEqualTo(Verdict.UNDO);
    assertThat(file.verdictOf(edit(2, "clicks", 1, 0, 1))).isEqualTo(Verdict.ASK);
    assertThat(file.verdictOf(edit(3, "clicks", 0, 0, 1))).isEqualTo(Verdict.KEEP);
    assertThat(file.without(3).verdictOf(edit(3, "clicks", 0, 0, 1))).isEqualTo(Verdict.UNDO);
    assertThat(file.withoutRule(0).verdictOf(edit(1, "clicks", 0, 0, 1))).isEqualTo(Verdict.KEEP);
  }

  @Test
  void everyConditionOfARuleMustBeMet() {
    Rule all = rule(Verdict.UNDO, "thumps", 0, 100L, 200L, 2.0);
    assertThat(all.meets(edit(1, "thumps", 0, 150, 1))).isTrue();
    assertThat(all.meets(edit(1, "clicks", 0, 150, 1))).isFalse();
    assertThat(all.meets(edit(1, "thumps", 1, 150, 1))).isFalse();
    assertThat(all.meets(edit(1, "thumps", 0, 150, 2))).isFalse();
    assertThat(all.meets(edit(1, "thumps", 0, 150, Double.NaN))).isFalse();
    // an edit that overlaps by one frame is in the range, one that touches it is not
    assertThat(all.meets(edit(1, "thumps", 0, 91, 1))).isTrue();
    assertThat(all.meets(edit(1, "thumps", 0, 90, 1))).isFalse();
    assertThat(all.meets(edit(1, "thumps", 0, 199, 1))).isTrue();
    assertThat(all.meets(edit(1, "thumps", 0, 200, 1))).isFalse();
  }

  @Test
  void signedOffTakesNoMore() {
    DecisionFile signed = DecisionFile.empty(LEDGER, "a").signed(new SignOff("R. Iverdal", AT));
    assertThatThrownBy(() -> signed.with(new Decision(1, Verdict.UNDO, "", AT)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("signed off by R. Iverdal");
    assertThat(signed.signed(null).with(new Decision(1, Verdict.UNDO, "", AT)).decisions())
        .hasSize(1);
  }

  @Test
  void whatCannotBeIsRefused() {
    DecisionFile file = DecisionFile.empty(LEDGER, "");
    assertThatThrownBy(() -> file.with(new Decision(10, Verdict.UNDO, "", AT)))
        .hasMessageContaining("no edit 10");
    assertThatThrownBy(() -> new Decision(0, Verdict.UNDO, "", AT)).hasMessageContaining("edit 0");
    assertThatThrownBy(() -> new Decision(1, Verdict.UNDO, "a\ud800", AT))
        .hasMessageContaining("half a character");
    assertThatThrownBy(() -> new Decision(1, Verdict.UNDO, "x".repeat(4_001), AT))
        .hasMessageContaining("too long");
    assertThatThrownBy(() -> rule(Verdict.UNDO, null, 2, null, null, null))
        .hasMessageContaining("channel 2");
    assertThatThrownBy(() -> rule(Verdict.UNDO, null, null, 5L, 5L, null))
        .hasMessageContaining("frame 5");
    assertThatThrownBy(() -> new SignOff(" ", AT)).hasMessageContaining("name");
  }
}
