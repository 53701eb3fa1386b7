package org.groovemend.review.door;

import java.util.Map;

/** Headers of every answer: what a browser may do with it. */
final class Protection {

  /**
   * Scripts, styles and requests of this server alone (Content Security Policy Level 3); pictures
   * also from memory; no frames, no forms, no plain text made into markup. Nothing is kept by the
   * browser, and nothing told to others.
   */
  static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy",
          "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:;"
              + " connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none';"
              + " require-trusted-types-for 'script'",
          "X-Content-Type-Options",
          "nosniff",
          "Referrer-Policy",
          "no-referrer",
          "Cache-Control",
          "no-store",
          "Cross-Origin-Opener-Policy",
          "same-origin",
          "Cross-Origin-Resource-Policy",
          "same-origin",
          "X-Frame-Options",
          "DENY");

  private Protection() {}
}
