package org.groovemend.chain;

/** Is shown what goes into a signal stage and what comes out of it, in consecutive blocks. */
@FunctionalInterface
public interface SignalWatch {
  /** Must not change or keep the arrays; they are reused. */
  void block(double[][] in, double[][] out, int count);
}
