package org.groovemend.stage;

import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;

/** Tasks that several threads take from, each the next that none has taken. */
final class SharedTasks {
  private final List<Runnable> tasks;
  private final AtomicInteger next = new AtomicInteger();
  private final CountDownLatch open;
  private final AtomicReference<Throwable> failed = new AtomicReference<>();

  SharedTasks(List<Runnable> tasks) {
    this.tasks = List.copyOf(tasks);
    open = new CountDownLatch(this.tasks.size());
  }

  /** Does tasks until none is left to take. */
  void take() {
    for (int i = next.getAndIncrement(); i < tasks.size(); i = next.getAndIncrement()) {
      try {
        tasks.get(i).run();
      } catch (RuntimeException | Error e) {
        failed.compareAndSet(null, e);
      } finally {
        open.countDown();
      }
    }
  }

  /** Returns when all tasks are over; an interrupt is kept for later. */
  void await() {
    boolean interrupted = false;
    while (open.getCount() > 0) {
      try {
        open.await();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  /** Throws what the first task that failed has thrown. */
  void thrown() {
    Throwable first = failed.get();
    if (first instanceof Error error) {
      throw error;
    }
    if (first != null) {
      throw (RuntimeException) first;
    }
  }
}
