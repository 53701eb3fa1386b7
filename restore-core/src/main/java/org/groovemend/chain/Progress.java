package org.groovemend.chain;

/** Is told how far a step has come; called often, on the thread that runs the step. */
@FunctionalInterface
public interface Progress {
  /**
   * @param step what is being done, in words for people
   * @param done frames done
   * @param total frames in all
   */
  void at(String step, long done, long total);

  Progress SILENT = (step, done, total) -> {};
}
