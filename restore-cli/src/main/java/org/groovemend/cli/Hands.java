package org.groovemend.cli;

import java.util.concurrent.CancellationException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.groovemend.chain.Progress;
import org.groovemend.stage.Crew;

/**
 * The threads of one command, and its end when a person interrupts it: the job is stopped at its
 * next step, cleans up what it had begun, and only then the process goes.
 */
final class Hands implements AutoCloseable {

  private static final long CLEAN_UP_SECONDS = 20;

  private final ExecutorService executor;
  private final Crew crew;
  private final CountDownLatch cleanedUp = new CountDownLatch(1);
  private final Thread hook = new Thread(this::interrupted, "groovemend-interrupted");
  private volatile boolean stopping;

  Hands(int threads) {
    executor =
        Executors.newFixedThreadPool(
            threads,
            work -> {
              Thread thread = new Thread(work, "groovemend-hand");
              thread.setDaemon(true);
              return thread;
            });
    crew = new Crew(executor, threads + 1);
    Runtime.getRuntime().addShutdownHook(hook);
  }

  Crew crew() {
    return crew;
  }

  /** The same progress, but it stops the job once the process has been told to end. */
  Progress watching(Progress progress) {
    return (step, done, total) -> {
      if (stopping) {
        throw new CancellationException("interrupted");
      }
      progress.at(step, done, total);
    };
  }

  /** Whether the process has been told to end. */
  boolean stopping() {
    return stopping;
  }

  private void interrupted() {
    stopping = true;
    try {
      cleanedUp.await(CLEAN_UP_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public void close() {
    executor.shutdownNow();
    cleanedUp.countDown();
    if (!stopping) {
      try {
        Runtime.getRuntime().removeShutdownHook(hook);
      } catch (IllegalStateException shuttingDown) {
        // the hook is running already
      }
    }
  }
}
