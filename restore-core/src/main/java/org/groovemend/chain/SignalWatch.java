package org.groovemend.chain;

import org.groovemend.stage.StageNote;

/** Is shown what goes into a signal stage and what comes out of it, in consecutive blocks. */
@FunctionalInterface
public interface SignalWatch {
  /** Must not change or keep the arrays; they are reused. */
  void block(double[][] in, double[][] out, int count);

  /** What the stage tells of a place; in order, each before the block that holds it. */
  default void note(StageNote note) {}
}
