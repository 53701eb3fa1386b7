package org.groovemend.job.proof;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.groovemend.ledger.Ledger;
import org.groovemend.signing.SignatureFile;
import org.groovemend.signing.SignatureRole;
import org.groovemend.signing.SigningKey;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Several sign one ledger at the same moment. */
class SignAtOnceTest {

  private static final int SIGNERS = 4;
  private static final int EACH = 15;

  @TempDir private Path folder;

  @Test
  void noSignatureIsLost() throws Exception {
    Path ledger = folder.resolve("side.ledger.jsonl");
    try (InputStream in =
        getClass().getResourceAsStream("/fixtures/ledger/v1/repairs/side.ledger.jsonl")) {
      Files.write(ledger, in.readAllBytes());
    }
    SigningKey key = SigningKey.generate();
    ExecutorService threads = Executors.newFixedThreadPool(SIGNERS);
    try {
      List<Future<?>> all = new ArrayList<>();
      for (int signer = 0; signer < SIGNERS; signer++) {
        String name = "signer " + signer;
        all.add(
            threads.submit(
                () -> {
                  for (int i = 0; i < EACH; i++) {
                    sign(ledger, name + ", " + i, key);
                  }
                  return null;
                }));
      }
      for (Future<?> one : all) {
        one.get();
      }
    } finally {
      threads.shutdownNow();
    }
    SignatureFile file = SignatureFile.read(SignatureFile.beside(ledger));
    String seal = Ledger.open(ledger).seal();
    assertThat(file.signatures()).hasSize(SIGNERS * EACH);
    assertThat(file.signatures()).extracting(s -> s.name()).doesNotHaveDuplicates();
    for (int i = 0; i < file.signatures().size(); i++) {
      assertThat(file.faults(i, seal)).isEmpty();
    }
  }

  private static void sign(Path ledger, String name, SigningKey key) throws IOException {
    SignLedger.run(
        new SignLedger.Request(
            ledger,
            null,
            SignatureRole.OPERATOR,
            name,
            Instant.parse("2026-03-01T12:00:00Z"),
            key));
  }
}
