package org.groovemend.cli;

import java.util.function.Supplier;

/** Turns a refused value into a usage failure. */
final class Usage {

  private Usage() {}

  static <T> T check(Supplier<T> value) {
    try {
      return value.get();
    } catch (IllegalArgumentException e) {
      throw new UsageException(e.getMessage());
    }
  }
}
