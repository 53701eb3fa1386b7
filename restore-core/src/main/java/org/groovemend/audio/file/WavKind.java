package org.groovemend.audio.file;

/** The RIFF forms of WAVE. */
enum WavKind {
  /** Sizes of 32 bits. */
  RIFF,
  /** EBU Tech 3306: 64-bit sizes in a ds64 chunk. */
  RF64,
  /** ITU-R BS.2088: as RF64; the third number of ds64 has no meaning. */
  BW64;

  boolean large() {
    return this != RIFF;
  }

  String title() {
    return this == RIFF ? "WAV" : name();
  }
}
