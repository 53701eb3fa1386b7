package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.BooleanSupplier;
import java.util.function.LongConsumer;
import org.groovemend.ledger.Sha256;

/** Reads files for many threads, counts, and stops when the round does. */
final class FixityReading {

  private static final int PORTION = 1 << 16;

  private final BooleanSupplier stopping;
  private final LongConsumer watch;
  private final LongAdder files = new LongAdder();
  private final LongAdder bytes = new LongAdder();

  /**
   * @param watch told the bytes read so far, by any thread
   */
  FixityReading(BooleanSupplier stopping, LongConsumer watch) {
    this.stopping = stopping;
    this.watch = watch;
  }

  String sha256(Path file) throws IOException {
    files.increment();
    return Sha256.of(
        file,
        () -> {
          read(PORTION);
          return true;
        });
  }

  /** A file is about to be read by others. */
  void begin() {
    files.increment();
    requireWanted();
  }

  /** Some of it was read. */
  void read(long n) {
    requireWanted();
    bytes.add(n);
    watch.accept(bytes.sum());
  }

  private void requireWanted() {
    if (stopping.getAsBoolean()) {
      throw new CancellationException("interrupted");
    }
  }

  long files() {
    return files.sum();
  }

  long bytes() {
    return bytes.sum();
  }
}
