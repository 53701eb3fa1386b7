package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import org.groovemend.chain.Progress;
import org.groovemend.fixity.FixityFinding.Kind;

/** One round over a store. */
public final class FixityRun implements StoreWalk.Sink {

  /** Findings that are told one by one; all are in the record. */
  public static final int MOST_FINDINGS = 10_000;

  private static final int WAITING = 256;

  /**
   * What is wanted.
   *
   * @param store folder
   * @param record file of its own, not in the store's way
   * @param thorough whether every check of a single ledger is made
   * @param threads at work
   */
  public record Wish(Path store, Path record, boolean thorough, int threads) {}

  /** Ends a worker. */
  private static final FixityTask NONE =
      new FixityTask() {
        @Override
        public String key() {
          return "";
        }

        @Override
        public List<FixityFinding> check(FixityReading reading) {
          return List.of();
        }
      };

  private final FixityRecord record;
  private final FixityReading reading;
  private final BooleanSupplier stopping;
  private final BlockingQueue<FixityTask> queue = new ArrayBlockingQueue<>(WAITING);
  private final List<FixityFinding> findings = new ArrayList<>();
  private final AtomicLong found = new AtomicLong();
  private final AtomicLong faults = new AtomicLong();
  private final AtomicLong checked = new AtomicLong();
  private final AtomicReference<IOException> trouble = new AtomicReference<>();
  private long before;
  private long companions;

  private FixityRun(FixityRecord record, FixityReading reading, BooleanSupplier stopping) {
    this.record = record;
    this.reading = reading;
    this.stopping = stopping;
  }

  /**
   * Goes through the store, or on where a round before was stopped.
   *
   * @param stopping whether to stop
   * @throws FixityRecordException if the record cannot be used
   */
  public static FixityOutcome run(
      Wish wish, Clock clock, BooleanSupplier stopping, Progress progress) throws IOException {
    long began = System.nanoTime();
    Path store = wish.store().toAbsolutePath().normalize();
    Path recordFile = wish.record().toAbsolutePath().normalize();
    try (FixityRecord record =
        FixityRecord.open(recordFile, store, wish.thorough(), clock.instant())) {
      long total = Math.max(1, StoreWalk.bytes(store));
      FixityReading reading =
          new FixityReading(stopping, n -> progress.at("reading", Math.min(n, total), total));
      FixityRun run = new FixityRun(record, reading, stopping);
      run.go(new StoreWalk(store, wish.thorough(), recordFile, run), wish.threads());
      boolean stopped = stopping.getAsBoolean();
      if (!stopped) {
        record.end(clock.instant(), run.faults.get() == 0);
      }
      run.findings.sort(
          Comparator.comparing(FixityFinding::kind).thenComparing(FixityFinding::file));
      return new FixityOutcome(
          run.checked.get(),
          run.before,
          reading.files(),
          reading.bytes(),
          run.companions,
          run.findings,
          run.found.get(),
          run.faults.get(),
          (System.nanoTime() - began) / 1e9,
          stopped);
    }
  }

  private void go(StoreWalk walk, int threads) throws IOException {
    List<Thread> workers = new ArrayList<>();
    for (int i = 0; i < threads; i++) {
      Thread worker = new Thread(this::work, "groovemend-fixity-" + (i + 1));
      worker.setDaemon(true);
      worker.start();
      workers.add(worker);
    }
    IOException failed = null;
    try {
      walk.run();
    } catch (IOException e) {
      failed = e;
    } catch (CancellationException e) {
      // the outcome says so
    }
    try {
      for (int i = 0; i < threads; i++) {
        put(NONE, true);
      }
      for (Thread worker : workers) {
        worker.join();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
    if (failed != null || trouble.get() != null) {
      throw failed != null ? failed : trouble.get();
    }
  }

  private void put(FixityTask task, boolean last) throws InterruptedException {
    while (!queue.offer(task, 100, java.util.concurrent.TimeUnit.MILLISECONDS)) {
      if (!last && (stopping.getAsBoolean() || trouble.get() != null)) {
        throw new CancellationException("interrupted");
      }
    }
  }

  @Override
  public void task(FixityTask task) {
    if (stopping.getAsBoolean() || trouble.get() != null) {
      throw new CancellationException("interrupted");
    }
    if (record.done(task.key())) {
      before++;
      return;
    }
    try {
      put(task, false);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    }
  }

  @Override
  public void finding(FixityFinding finding) {
    synchronized (findings) {
      found.incrementAndGet();
      if (finding.kind().fault()) {
        faults.incrementAndGet();
      }
      if (findings.size() < MOST_FINDINGS) {
        findings.add(finding);
      }
    }
  }

  @Override
  public void companions(int count) {
    companions += count;
  }

  private void work() {
    while (true) {
      FixityTask task;
      try {
        task = queue.take();
      } catch (InterruptedException e) {
        return;
      }
      if (task == NONE) {
        return;
      }
      if (stopping.getAsBoolean() || trouble.get() != null) {
        continue; // only emptied
      }
      one(task);
    }
  }

  private void one(FixityTask task) {
    List<FixityFinding> told;
    try {
      told = task.check(reading);
    } catch (CancellationException e) {
      return;
    } catch (IOException | RuntimeException e) {
      told =
          List.of(
              new FixityFinding(
                  Kind.UNREADABLE,
                  task.key(),
                  task.key()
                      + " cannot be read: "
                      + (e.getMessage() == null ? e : e.getMessage())));
    }
    told.forEach(this::finding);
    checked.incrementAndGet();
    try {
      record.add(task.key(), told);
    } catch (IOException e) {
      trouble.compareAndSet(null, e);
    }
  }
}
