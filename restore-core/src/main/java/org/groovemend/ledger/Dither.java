package org.groovemend.ledger;

/**
 * What was added before requantising.
 *
 * @param kind "tpdf", or "none"
 * @param seed of the generator; 0 with "none"
 */
public record Dither(String kind, long seed) {
  public Dither {
    if (kind == null || kind.isBlank()) {
      throw new IllegalArgumentException("dither needs a kind, \"none\" if there was none");
    }
  }

  public static Dither none() {
    return new Dither("none", 0);
  }
}
