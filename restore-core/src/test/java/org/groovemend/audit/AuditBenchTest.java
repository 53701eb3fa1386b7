package org.groovemend.audit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class AuditBenchTest {
  @Test
  void run() throws IOException {
    List<String> lines = new ArrayList<>();
    int cases = Integer.getInteger("audit.cases", 12);
    double seconds = Integer.getInteger("audit.seconds", 12);
    for (int i = 1; i <= cases; i++) {
      long t0 = System.nanoTime();
      AuditBench.Case one = AuditBench.make(i, seconds);
      long t1 = System.nanoTime();
      lines.add(
          AuditBench.score(one)
              + String.format(" %.1f %.1f s", (t1 - t0) / 1e9, (System.nanoTime() - t1) / 1e9));
      Files.write(Path.of("target/audit-bench.txt"), lines);
    }
  }
}
