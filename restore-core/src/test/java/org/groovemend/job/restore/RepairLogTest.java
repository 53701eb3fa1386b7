package org.groovemend.job.restore;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.groovemend.stage.Repair;
import org.groovemend.stage.StageId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RepairLogTest {

  @TempDir Path folder;

  private static Repair repair(Random random, int channel, long start) {
    return new Repair(
        channel,
        start,
        new double[1 + random.nextInt(40)],
        new Repair.Evidence(
            random.nextDouble(),
            random.nextDouble(),
            random.nextBoolean() ? "lsar" : "m\u00e9thode",
            random.nextInt(1024),
            start + random.nextInt(3),
            random.nextInt(30),
            random.nextBoolean() ? Double.NaN : -90 * random.nextDouble()));
  }

  private static List<LoggedRepair> all(RepairLog log) throws IOException {
    List<LoggedRepair> read = new ArrayList<>();
    try (RepairLog.Reader reader = log.read()) {
      for (LoggedRepair next = reader.next(); next != null; next = reader.next()) {
        read.add(next);
      }
      assertThat(reader.next()).isNull();
    }
    return read;
  }

  @Test
  void repairsOfSeveralStagesComeBackWholeAndInLedgerOrder() throws IOException {
    Random random = new Random(2);
    List<LoggedRepair> expected = new ArrayList<>();
    try (RepairLog log = new RepairLog(folder)) {
      for (StageId stage : List.of(StageId.THUMPS, StageId.CLICKS, StageId.CRACKLE)) {
        long start = 1L << 33;
        for (int i = 0; i < 3000; i++) {
          start += 1 + random.nextInt(20);
          Repair r = repair(random, random.nextInt(2), start);
          log.add(stage, r);
          expected.add(new LoggedRepair(stage, r.channel(), r.start(), r.end(), r.evidence()));
        }
      }
      log.finishWriting();
      expected.sort(LoggedRepair.LEDGER_ORDER);
      assertThat(all(log)).isEqualTo(expected);
      assertThat(all(log)).as("read a second time").isEqualTo(expected);
    }
  }

  @Test
  void nothingIsLeftInTheFolder() throws IOException {
    try (RepairLog log = new RepairLog(folder)) {
      log.add(StageId.CLICKS, repair(new Random(3), 0, 5));
      try (var files = Files.list(folder)) {
        assertThat(files.count()).isEqualTo(1);
      }
    }
    try (var files = Files.list(folder)) {
      assertThat(files.count()).isZero();
    }
  }

  @Test
  void anEmptyLogHasNoRepairs() throws IOException {
    try (RepairLog log = new RepairLog(folder)) {
      log.finishWriting();
      assertThat(all(log)).isEmpty();
    }
  }
}
