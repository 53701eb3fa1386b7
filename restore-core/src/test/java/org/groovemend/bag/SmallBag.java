package org.groovemend.bag;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;

/** A bag to test with. */
final class SmallBag {

  static final LocalDate DAY = LocalDate.of(2026, 11, 26);

  private SmallBag() {}

  /** Writes a bag of two files, one empty, one "abc". */
  static void write(Path bag, boolean replace, Set<DigestAlgorithm> algorithms) throws IOException {
    try (BagWriter writer = BagWriter.open(bag, replace, List.of(), algorithms)) {
      Files.writeString(writer.payload("service/rye.flac"), "abc");
      Files.writeString(writer.payload("empty"), "");
      writer.info("External-Identifier", "Q 12/3");
      writer.info("External-Description", " two\r\nlines\tof text ");
      writer.info("Contact-Name", "  ");
      AtomicLong read = new AtomicLong();
      writer.commit(DAY, read::addAndGet);
      assertThat(read).hasValue(3);
    }
  }
}
