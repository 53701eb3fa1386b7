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
   * are over, whether done or failed.
   *
   * @param tasks one or more
   * @throws RuntimeException or an {@link Error}: the first that a task threw
   */
  public void together(Runnable... tasks) {
    if (hands == 1) {
      for (Runnable task : tasks) {
        task.run();
      }
      return;
    }
    List<CompletableFuture<Void>> all = new ArrayList<>();
    try {
      for (int i = 1; i < tasks.length; i++) {
        all.add(CompletableFuture.runAsync(tasks[i], executor));
      }
      all.add(0, CompletableFuture.completedFuture(null).thenRun(tasks[0]));
    } finally {
      // an executor that refuses leaves those already begun
      all.forEach(task -> task.exceptionally(failed -> null).join());
    }
    for (CompletableFuture<Void> task : all) {
      try {
        task.join();
      } catch (CompletionException e) {
        if (e.getCause() instanceof Error error) {
          throw error;
        }
        throw e.getCause() instanceof RuntimeException r ? r : e;
      }
    }
  }

  /**
   * The same for many small tasks: each hand takes the next when it is done with one, so that few
   * threads have to be woken, and none is waited for that has not come yet. Tasks begin in their
   * order.
   *
   * @param tasks share nothing
   */
  public void share(List<Runnable> tasks) {
    if (hands == 1 || tasks.size() < 2) {
      tasks.forEach(Runnable::run);
      return;
    }
    SharedTasks shared = new SharedTasks(tasks);
    try {
      for (int i = 1; i < Math.min(hands, tasks.size()); i++) {
        executor.execute(shared::take);
      }
    } finally {
      shared.take();
      shared.await();
    }
    shared.thrown();
  }
}
