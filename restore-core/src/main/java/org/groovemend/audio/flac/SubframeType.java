package org.groovemend.audio.flac;

/** How a subframe holds its channel, RFC 9639 section 9.2.1. */
enum SubframeType {
  /** One value for the whole block. */
  CONSTANT,
  /** Every sample as it is. */
  VERBATIM,
  /** A polynomial predictor of order 0 to 4 and the residual. */
  FIXED,
  /** A linear predictor of order 1 to 32 and the residual. */
  LINEAR
}
