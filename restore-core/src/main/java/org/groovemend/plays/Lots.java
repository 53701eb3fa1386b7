package org.groovemend.plays;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import org.groovemend.stage.Crew;

/**
 * Works through numbered lots: each is worked on by one of the crew's hands with room of its own,
 * and finished on the calling thread in order. So what comes of it does not depend on the number of
 * hands.
 */
final class Lots {
  private Lots() {}

  /** A hand's room. */
  interface Worker {

    /** Works on a lot; on any thread. */
    void work(long lot) throws IOException;

    /** Hands on what came of the lot; on the calling thread, in order. */
    void finish(long lot) throws IOException;
  }

  private record Under(Worker worker, long lot, CompletableFuture<Void> done) {}

  /**
   * Works on lots 0 to {@code count - 1}.
   *
   * @param workers makes a hand's room
   */
  static void run(long count, Crew crew, Supplier<? extends Worker> workers) throws IOException {
    Deque<Worker> idle = new ArrayDeque<>();
    for (long i = 0; i < Math.min(count, crew.hands()); i++) {
      idle.add(workers.get());
    }
    Deque<Under> running = new ArrayDeque<>();
    try {
      for (long lot = 0; lot < count; lot++) {
        if (idle.isEmpty()) {
          idle.add(finish(running.remove()));
        }
        Worker worker = idle.remove();
        long number = lot;
        running.add(
            new Under(
                worker,
                number,
                CompletableFuture.runAsync(() -> work(worker, number), crew.executor())));
      }
      while (!running.isEmpty()) {
        finish(running.remove());
      }
    } finally {
      // a failure leaves none at work behind it
      running.forEach(under -> under.done.exceptionally(failed -> null).join());
    }
  }

  private static void work(Worker worker, long lot) {
    try {
      worker.work(lot);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Worker finish(Under under) throws IOException {
    try {
      under.done.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof UncheckedIOException cause) {
        throw cause.getCause();
      }
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      if (e.getCause() instanceof Error cause) {
        throw cause;
      }
      throw e;
    }
    under.worker.finish(under.lot);
    return under.worker;
  }
}
