package org.groovemend.audio;

/**
 * The shape of the samples of a side.
 *
 * @param sampleRateHz 8,000 to 384,000
 * @param channels 1 (mono) or 2 (left, right)
 * @param coding integer or float
 * @param containerBits bits a word occupies: PCM 16, 24 or 32; float 32 or 64
 * @param significantBits bits that carry sound, at most {@code containerBits}; smaller only for PCM
 *     whose low bits are always zero (20 in 24, 24 in 32)
 */
public record AudioFormat(
    int sampleRateHz, int channels, SampleCoding coding, int containerBits, int significantBits) {

  public static final int MIN_RATE_HZ = 8_000;
  public static final int MAX_RATE_HZ = 384_000;

  public AudioFormat {
    if (sampleRateHz < MIN_RATE_HZ || sampleRateHz > MAX_RATE_HZ) {
      throw new IllegalArgumentException(
          "sampleRateHz " + sampleRateHz + " is outside " + MIN_RATE_HZ + " to " + MAX_RATE_HZ);
    }
    if (channels != 1 && channels != 2) {
      throw new IllegalArgumentException("channels " + channels + " is not 1 or 2");
    }
    boolean known =
        coding == SampleCoding.PCM
            ? containerBits == 16 || containerBits == 24 || containerBits == 32
            : containerBits == 32 || containerBits == 64;
    if (!known) {
      throw new IllegalArgumentException(
          coding + " with " + containerBits + " bits is not supported");
    }
    if (significantBits < 1
        || significantBits > containerBits
        || (coding == SampleCoding.FLOAT && significantBits != containerBits)) {
      throw new IllegalArgumentException(
          "significantBits "
              + significantBits
              + " does not fit "
              + containerBits
              + " container bits");
    }
  }

  public static AudioFormat pcm(int sampleRateHz, int channels, int bits) {
    return new AudioFormat(sampleRateHz, channels, SampleCoding.PCM, bits, bits);
  }

  public static AudioFormat ieeeFloat(int sampleRateHz, int channels, int bits) {
    return new AudioFormat(sampleRateHz, channels, SampleCoding.FLOAT, bits, bits);
  }

  /**
   * What a person calls a channel.
   *
   * @param channel 0 based
   * @param channels 1 or 2
   */
  public static String channelName(int channel, int channels) {
    return channels == 1 ? "mono" : channel == 0 ? "left" : "right";
  }

  /** What a person calls a channel, 0 based, of a side of this format. */
  public String channelName(int channel) {
    return channelName(channel, channels);
  }

  public int bytesPerSample() {
    return containerBits / 8;
  }

  public int bytesPerFrame() {
    return bytesPerSample() * channels;
  }

  /**
   * The smallest step of an integer format on the scale where full scale is 1.0; 0 for float
   * formats.
   */
  public double quantumStep() {
    return coding == SampleCoding.PCM ? 1.0 / (1L << (significantBits - 1)) : 0.0;
  }

  /** Seconds at a frame; positions themselves are always kept as frames. */
  public double seconds(long frame) {
    return frame / (double) sampleRateHz;
  }

  public long frames(double seconds) {
    return Math.round(seconds * sampleRateHz);
  }
}
