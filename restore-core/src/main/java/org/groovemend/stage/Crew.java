package org.groovemend.stage;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;

/**
 * The hands that do the work.
 *
 * @param executor runs tasks; the tasks never wait for one another
 * @param hands how many tasks may be under work at once, 1 or more; does not change the result
 */
public record Crew(Executor executor, int hands) {
  public Crew {
    if (hands < 1) {
      throw new IllegalArgumentException("hands " + hands + " is below 1");
    }
  }

  /** Everything on the calling thread. */
  public static Crew alone() {
    return new Crew(Runnable::run, 1);
  }

  /**
   * Does tasks that share nothing, the first of them on the calling thread, and returns when all
   * are done.
   *
   * @throws RuntimeException what a task threw; the others are over then
   */
  public void together(Runnable... tasks) {
    if (hands == 1) {
      for (Runnable task : tasks) {
        task.run();
      }
      return;
    }
    List<CompletableFuture<Void>> others = new ArrayList<>();
    for (int i = 1; i < tasks.length; i++) {
      others.add(CompletableFuture.runAsync(tasks[i], executor));
    }
    RuntimeException failure = null;
    try {
      tasks[0].run();
    } catch (RuntimeException e) {
      failure = e;
    }
    for (CompletableFuture<Void> other : others) {
      try {
        other.join();
      } catch (CompletionException e) {
        if (e.getCause() instanceof Error error) {
          throw error;
        }
        failure = failure == null && e.getCause() instanceof RuntimeException r ? r : failure;
      }
    }
    if (failure != null) {
      throw failure;
    }
  }
}
