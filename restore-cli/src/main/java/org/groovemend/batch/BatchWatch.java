package org.groovemend.batch;

import org.groovemend.chain.Progress;

/** Is told what happens in a run, by any thread. */
public interface BatchWatch {

  /** A side is begun; what is returned is told how far it comes, and may throw to stop it. */
  Progress begun(PlannedSide side);

  /** A side is over. */
  void over(PlannedSide side, boolean done, double seconds);

  /** Nothing can be done for the time being; a sentence for who waits. */
  default void waiting(String sentence) {}

  /** Whether no further side is to be begun. */
  boolean stopping();

  /** Sees nothing. */
  BatchWatch SILENT =
      new BatchWatch() {
        @Override
        public Progress begun(PlannedSide side) {
          return Progress.SILENT;
        }

        @Override
        public void over(PlannedSide side, boolean done, double seconds) {}

        @Override
        public boolean stopping() {
          return false;
        }
      };
}
