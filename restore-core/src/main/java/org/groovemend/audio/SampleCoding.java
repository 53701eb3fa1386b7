package org.groovemend.audio;

/** How the bits of a sample word are read. */
public enum SampleCoding {
  /** Two's complement integer; full scale is 2^(bits-1). */
  PCM,
  /** IEEE 754 binary32 or binary64; full scale is 1.0. */
  FLOAT
}
