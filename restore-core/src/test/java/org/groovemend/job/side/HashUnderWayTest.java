package org.groovemend.job.side;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import org.groovemend.ledger.Sha256;
import org.groovemend.stage.Crew;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class HashUnderWayTest {
  @TempDir Path folder;

  /** FIPS 180-4, example "abc" of the standard's examples page. */
  @Test
  void theDigestOfTheFile() throws Exception {
    Path file = Files.write(folder.resolve("a"), "abc".getBytes(StandardCharsets.US_ASCII));
    ExecutorService executor = Executors.newSingleThreadExecutor();
    try (HashUnderWay hash = new HashUnderWay(file, new Crew(executor, 2))) {
      assertThat(hash.digits())
          .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    } finally {
      executor.shutdownNow();
    }
  }

  @Test
  void nobodyReadsOnWhenTheDigestIsNoLongerWanted() throws Exception {
    Path file = Files.write(folder.resolve("b"), new byte[1 << 20]);
    AtomicInteger asked = new AtomicInteger();
    assertThatThrownBy(() -> Sha256.of(file, () -> asked.incrementAndGet() < 3))
        .isInstanceOf(CancellationException.class)
        .hasMessageContaining("b");
    assertThat(asked).hasValue(3);
  }

  @Test
  void aFailureIsToldOnlyToWhoAsksForTheDigits() {
    HashUnderWay hash = new HashUnderWay(folder.resolve("missing"), Crew.alone());
    assertThatThrownBy(hash::digits).isInstanceOf(java.nio.file.NoSuchFileException.class);
    hash.close();
  }
}
