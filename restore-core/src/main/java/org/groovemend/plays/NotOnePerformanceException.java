package org.groovemend.plays;

/** Two recordings are not plays of one performance, or too little of it; says why. */
public final class NotOnePerformanceException extends Exception {
  private static final long serialVersionUID = 1L;

  NotOnePerformanceException(String reason) {
    super(reason);
  }
}
