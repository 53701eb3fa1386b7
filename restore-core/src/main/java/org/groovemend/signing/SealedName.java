package org.groovemend.signing;

import java.util.Objects;

/**
 * A sealed file, a ledger or a file of decisions.
 *
 * @param name file name without folder
 * @param seal stands for its content
 */
public record SealedName(String name, String seal) {

  public SealedName {
    Objects.requireNonNull(name, "name");
    if (!seal.matches("[0-9a-f]{64}")) {
      throw new IllegalArgumentException("the seal of " + name + " is no SHA-256");
    }
  }
}
