package org.groovemend.ledger;

import java.util.Objects;

/**
 * Where the restoration ran, as far as results could depend on it; no names of machines or people.
 */
public record Environment(String javaVersion, String javaVendor, String os, String arch) {
  public Environment {
    Objects.requireNonNull(javaVersion, "javaVersion");
    Objects.requireNonNull(javaVendor, "javaVendor");
    Objects.requireNonNull(os, "os");
    Objects.requireNonNull(arch, "arch");
  }

  /** This virtual machine; "unknown" where it does not say. */
  public static Environment current() {
    return new Environment(
        System.getProperty("java.version", "unknown"),
        System.getProperty("java.vendor", "unknown"),
        System.getProperty("os.name", "unknown"),
        System.getProperty("os.arch", "unknown"));
  }
}
