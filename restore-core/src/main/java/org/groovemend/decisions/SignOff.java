package org.groovemend.decisions;

import java.util.Objects;

/**
 * The reviewer's word that the decisions are complete. No more decisions are taken after it; who
 * wants to change them takes the word back first.
 *
 * @param by who says so
 * @param atUtc when, ISO 8601
 */
public record SignOff(String by, String atUtc) {

  public SignOff {
    Objects.requireNonNull(by, "by");
    Objects.requireNonNull(atUtc, "atUtc");
    if (by.isBlank()) {
      throw new IllegalArgumentException("to sign off, a name is needed");
    }
  }
}
