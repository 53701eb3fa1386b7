package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.groovemend.ledger.Check;
import org.groovemend.ledger.Verifier;
import org.junit.jupiter.api.Test;

class VerifyCommandTest {

  private static String line(String name, Check.Outcome outcome) {
    StringWriter text = new StringWriter();
    VerifyCommand.print(
        new Check(name, outcome, "", "", "The file is not at hand.", List.of(), 0),
        new PrintWriter(text));
    return text.toString().lines().findFirst().orElseThrow();
  }

  @Test
  void aCheckThatWasNotMadeIsNamed() {
    assertEquals(
        "not checked original-file: The file is not at hand.",
        line("original-file", Check.Outcome.NOT_CHECKED));
    assertEquals(
        "not checked original-samples: The file is not at hand.",
        line("original-samples", Check.Outcome.NOT_CHECKED));
  }

  @Test
  void withoutTheWayBackProvedTheVerdictSaysSo() {
    assertEquals(
        "Everything that could be checked holds.",
        VerifyCommand.verdict(List.of(reversal(Check.Outcome.HOLDS)), false));
    assertTrue(
        VerifyCommand.verdict(List.of(reversal(Check.Outcome.NOT_CHECKED)), false)
            .endsWith("not enough to prove that the original can be rebuilt."));
    assertTrue(
        VerifyCommand.verdict(List.of(reversal(Check.Outcome.FAILS)), true)
            .startsWith("VERIFICATION FAILED"));
  }

  private static Check reversal(Check.Outcome outcome) {
    return new Check(Verifier.REVERSAL, outcome, "", "", "", List.of(), 0);
  }
}
