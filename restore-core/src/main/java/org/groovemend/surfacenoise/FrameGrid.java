package org.groovemend.surfacenoise;

/**
 * Where frames lie: frame f covers samples [f hop, f hop + length), for every whole f from -3 on,
 * hop a quarter of the length. The grid starts at the first sample of the side, never at that of a
 * segment, so every sample is covered by the same four frames however the side is cut. Samples
 * outside the side count as 0.
 *
 * @param length a power of two, at least 64
 */
record FrameGrid(int length) {

  static final int OVERLAP = 4;

  FrameGrid {
    if (length < 64 || Integer.bitCount(length) != 1) {
      throw new IllegalArgumentException(
          "frame length " + length + " is not a power of two of at least 64");
    }
  }

  static FrameGrid of(double milliseconds, int sampleRateHz) {
    double wanted = Math.max(64, milliseconds * 1e-3 * sampleRateHz);
    int length = 64;
    while (length * Math.sqrt(2) < wanted) {
      length *= 2;
    }
    return new FrameGrid(length);
  }

  int hop() {
    return length / OVERLAP;
  }

  int bins() {
    return length / 2 + 1;
  }

  /** First frame that covers any sample of the side. */
  static long first() {
    return 1 - OVERLAP;
  }

  /** First frame that covers a sample. */
  long firstCovering(long sample) {
    return Math.floorDiv(sample, (long) hop()) - OVERLAP + 1;
  }

  /** Last frame that covers a sample. */
  long lastCovering(long sample) {
    return Math.floorDiv(sample, (long) hop());
  }

  /** Last frame that covers any of {@code frames} samples. */
  long last(long samples) {
    return lastCovering(samples - 1);
  }

  /**
   * Adds a frame, weighted by its window once more, to {@code out}, whose first element is sample
   * {@code start} of the side; only samples {@code low} to {@code high}, exclusive. The squares of
   * the window sum to 2 at every sample.
   */
  void overlapAdd(
      long frame,
      double[] samples,
      double[] window,
      long low,
      long high,
      long start,
      double[] out) {
    long at = frame * hop();
    int from = (int) Math.max(0, low - at);
    int to = (int) Math.min(length, high - at);
    int offset = (int) (at - start);
    for (int i = from; i < to; i++) {
      out[offset + i] += 0.5 * window[i] * samples[i];
    }
  }
}
