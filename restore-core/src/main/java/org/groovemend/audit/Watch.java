package org.groovemend.audit;

/** Is told how far the comparison has come; may throw to stop it. */
@FunctionalInterface
public interface Watch {
  void at(long done, long total);
}
