package org.groovemend.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A sample of the cases of {@link AuditBench}; {@code -Daudit.cases=104 -Daudit.seconds=8} runs
 * many, and leaves their figures in {@code target/audit-bench.txt}.
 */
class AuditBenchTest {
  private static final double GAIN_DB = 0.01;
  private static final double PLACE_SAMPLES = 0.05;
  private static final double PPM = 1;

  @Test
  void placesAreFoundAndTheWholeIsMeasured() throws IOException {
    List<String> lines = new ArrayList<>();
    int cases = Integer.getInteger("audit.cases", 8);
    double seconds = Integer.getInteger("audit.seconds", 6);
    int edits = 0;
    int found = 0;
    for (int i = 1; i <= cases; i++) {
      AuditBench.Score s = AuditBench.score(AuditBench.make(i, seconds));
      lines.add(s.toString());
      Files.createDirectories(Path.of("target"));
      Files.write(Path.of("target/audit-bench.txt"), lines);
      edits += s.edits();
      found += s.found();
      assertTrue(s.accused() <= 0.01 * s.samples(), s.toString());
      assertEquals(0, s.gainError(), GAIN_DB, s.toString());
      assertEquals(0, s.placeError(), PLACE_SAMPLES, s.toString());
      assertEquals(0, s.ppmError(), PPM, s.toString());
      assertTrue(s.polarityRight(), s.toString());
    }
    assertTrue(found >= 0.95 * edits, found + " of " + edits);
  }
}
