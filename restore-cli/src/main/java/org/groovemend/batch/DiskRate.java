package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CancellationException;
import java.util.function.LongSupplier;
import org.groovemend.chain.Progress;

/**
 * Keeps what a run reads and writes below a rate: sides wait at their next step while more was read
 * and written than the time since then allows. At most one second's worth is saved up.
 *
 * <p>Bytes are what the system counts of the process (Linux, {@code /proc/self/io}: all that was
 * asked of it, whether a disk or the memory gave it). A step goes through before it is counted, so
 * a run may be ahead by what its sides read and write between two steps.
 */
public final class DiskRate {

  private static final Path COUNTS = Path.of("/proc/self/io");
  private static final double NANOS = 1e9;
  private static final long LONGEST_MILLIS = 250;

  /** Waits a while. */
  interface Sleeper {
    void sleep(long millis) throws InterruptedException;
  }

  private final double bytesPerSecond;
  private final LongSupplier bytes;
  private final LongSupplier nanos;
  private final Sleeper sleeper;
  private long countedAt;
  private double allowed;
  private long counted;

  DiskRate(double bytesPerSecond, LongSupplier bytes, LongSupplier nanos, Sleeper sleeper) {
    this.bytesPerSecond = bytesPerSecond;
    this.bytes = bytes;
    this.nanos = nanos;
    this.sleeper = sleeper;
    this.countedAt = nanos.getAsLong();
    this.counted = bytes.getAsLong();
  }

  /**
   * Begins to count.
   *
   * @throws IOException if this system does not count what a process reads and writes
   */
  public static DiskRate of(double bytesPerSecond) throws IOException {
    count();
    return new DiskRate(
        bytesPerSecond,
        () -> {
          try {
            return count();
          } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
          }
        },
        System::nanoTime,
        Thread::sleep);
  }

  private static long count() throws IOException {
    long sum = 0;
    for (String line : Files.readAllLines(COUNTS)) {
      if (line.startsWith("rchar: ") || line.startsWith("wchar: ")) {
        sum += Long.parseLong(line.substring(7));
      }
    }
    return sum;
  }

  /** The same watch, but sides wait. */
  public BatchWatch slowing(BatchWatch watch) {
    return new BatchWatch() {
      @Override
      public Progress begun(PlannedSide side) {
        Progress progress = watch.begun(side);
        return (step, done, of) -> {
          progress.at(step, done, of);
          while (pause()) {
            // stops the side if the run is told to stop
            progress.at(step, done, of);
          }
        };
      }

      @Override
      public void over(PlannedSide side, boolean done, double seconds) {
        watch.over(side, done, seconds);
      }

      @Override
      public boolean stopping() {
        return watch.stopping();
      }
    };
  }

  /** Waits a while if too much was read and written; true if it may have to wait on. */
  boolean pause() {
    double ahead = ahead();
    if (ahead <= 0) {
      return false;
    }
    try {
      long millis = (long) Math.ceil(1000 * ahead / bytesPerSecond);
      sleeper.sleep(Math.min(LONGEST_MILLIS, Math.max(1, millis)));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
    return true;
  }

  /** Bytes that were too many so far. */
  private synchronized double ahead() {
    long now = nanos.getAsLong();
    long sum = bytes.getAsLong();
    allowed =
        Math.min(bytesPerSecond, allowed + (now - countedAt) / NANOS * bytesPerSecond)
            - (sum - counted);
    countedAt = now;
    counted = sum;
    return -allowed;
  }
}
