package org.groovemend.chain;

/** Is told how far a step has come; called often, on the thread that runs the step. */
@FunctionalInterface
public interface Progress {
  /**
   * Called when a step has come further; may throw to stop the work, which then leaves nothing
   * behind.
   *
   * @param step what is being done, in words for people
   * @param done frames done
   * @param total frames in all
   */
  void at(String step, long done, long total);

  Progress SILENT = (step, done, total) -> {};
}
