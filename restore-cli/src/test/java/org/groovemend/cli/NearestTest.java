package org.groovemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class NearestTest {

  private static final List<String> KNOWN = List.of("clicks", "noise", "reductionDb");

  @Test
  void editDistanceIsThatOfThePublishedExamples() {
    // the pair every textbook uses (kitten, sitting: 3); saturday, sunday: 3
    assertEquals(3, Nearest.distance("kitten", "sitting"));
    assertEquals(3, Nearest.distance("saturday", "sunday"));
    assertEquals(0, Nearest.distance("clicks", "clicks"));
    assertEquals(6, Nearest.distance("", "clicks"));
    assertEquals(5, Nearest.distance("noise", ""));
  }

  @Test
  void aSlipOfTheFingerFindsTheWordWhateverTheCase() {
    assertEquals(" (did you mean \"clicks\"?)", Nearest.hint("clciks", KNOWN));
    assertEquals(" (did you mean \"clicks\"?)", Nearest.hint("CLICK", KNOWN));
    assertEquals(" (did you mean \"reductionDb\"?)", Nearest.hint("reduction", KNOWN));
  }

  @Test
  void aWordNearNoneGivesNoHint() {
    assertEquals("", Nearest.hint("wow", List.of("clicks", "reductionDb")));
    assertEquals("", Nearest.hint("anything", List.of()));
  }
}
