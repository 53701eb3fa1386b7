package org.groovemend.job.side;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.groovemend.ledger.Sha256;
import org.groovemend.stage.Crew;

/** Digest of a whole file, made while something else is done; given up when closed. */
public final class HashUnderWay implements AutoCloseable {
  private final CompletableFuture<String> hash;
  private volatile boolean wanted = true;

  /** Begins. */
  public HashUnderWay(Path file, Crew crew) {
    hash =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                return Sha256.of(file, () -> wanted);
              } catch (IOException e) {
                throw new UncheckedIOException(e);
              }
            },
            crew.executor());
  }

  /** Waits for the 64 hexadecimal digits. */
  public String digits() throws IOException {
    try {
      return hash.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw e.getCause() instanceof UncheckedIOException io
          ? io.getCause()
          : new IOException(e.getCause());
    }
  }

  /** Stops reading, and returns once the file is closed again. */
  @Override
  public void close() {
    wanted = false;
    hash.exceptionally(failed -> null).join();
  }
}
