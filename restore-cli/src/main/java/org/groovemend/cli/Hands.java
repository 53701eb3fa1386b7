package org.groovemend.cli;

import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.groovemend.chain.Crew;

/** The threads of one command. */
final class Hands implements AutoCloseable {

  private final ExecutorService executor;
  private final Crew crew;

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
  }

  Crew crew() {
    return crew;
  }

  @Override
  public void close() {
    executor.shutdownNow();
  }
}
