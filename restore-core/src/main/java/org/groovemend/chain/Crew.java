package org.groovemend.chain;

import java.util.concurrent.Executor;

/**
 * The hands that do the work.
 *
 * @param executor runs segment tasks; the tasks never wait for one another
 * @param hands how many segments may be under work at once, 1 or more; does not change the result
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
}
