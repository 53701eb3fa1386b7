package org.groovemend.deliverable;

import java.util.Optional;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/** Width and coding of the words of a copy. */
public enum Depth {
  PCM_16("16", SampleCoding.PCM, 16),
  PCM_24("24", SampleCoding.PCM, 24),
  PCM_32("32", SampleCoding.PCM, 32),
  FLOAT_32("float32", SampleCoding.FLOAT, 32),
  FLOAT_64("float64", SampleCoding.FLOAT, 64);

  private final String key;
  private final SampleCoding coding;
  private final int bits;

  Depth(String key, SampleCoding coding, int bits) {
    this.key = key;
    this.coding = coding;
    this.bits = bits;
  }

  /** Name in recipes. */
  public String key() {
    return key;
  }

  /** The depth of a name, if there is one. */
  public static Optional<Depth> ofKey(String key) {
    for (Depth depth : values()) {
      if (depth.key.equals(key)) {
        return Optional.of(depth);
      }
    }
    return Optional.empty();
  }

  /** Samples of this depth. */
  public AudioFormat format(int sampleRateHz, int channels) {
    return new AudioFormat(sampleRateHz, channels, coding, bits, bits);
  }
}
