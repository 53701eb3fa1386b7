package org.groovemend.audit;

import org.groovemend.audio.AudioFormat;

/** Shape and words of the two sides that are compared. */
record ComparedSides(
    AudioFormat original,
    long originalFrames,
    WordCensus originalWords,
    AudioFormat derivative,
    long derivativeFrames,
    WordCensus derivativeWords) {

  /** Which channel, before a figure; nothing if there is but one. */
  String channel(int c) {
    return derivative.channels() == 1 ? "" : c == 0 ? "left: " : "right: ";
  }

  /** Of a frame of the derivative. */
  double seconds(long frame) {
    return derivative.seconds(frame);
  }
}
