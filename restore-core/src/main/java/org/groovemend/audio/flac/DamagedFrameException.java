package org.groovemend.audio.flac;

/**
 * Bytes that are not a FLAC frame. The reader adds file and place and throws it on as a rejected
 * input.
 */
final class DamagedFrameException extends Exception {

  private static final long serialVersionUID = 1L;

  private final boolean endOfBytes;

  private DamagedFrameException(String what, boolean endOfBytes) {
    super(what);
    this.endOfBytes = endOfBytes;
  }

  DamagedFrameException(String what) {
    this(what, false);
  }

  static DamagedFrameException endOfBytes() {
    return new DamagedFrameException("the frame does not end within the bytes at hand", true);
  }

  /** Whether more bytes might have helped. */
  boolean isEndOfBytes() {
    return endOfBytes;
  }
}
