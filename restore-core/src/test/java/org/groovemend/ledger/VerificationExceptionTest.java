package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class VerificationExceptionTest {

  @Test
  void aSentenceWithoutMismatchesStandsAlone() {
    assertThat(new VerificationException("It is another file.", List.of()))
        .hasMessage("It is another file.");
  }

  @Test
  void everyMismatchFollowsTheSentence() {
    assertThat(
            new VerificationException(
                "It is another file.",
                List.of(new Mismatch("a", "1", "2"), new Mismatch("b", "3", "4"))))
        .hasMessage("It is another file. a: expected 1, found 2; b: expected 3, found 4.");
  }
}
