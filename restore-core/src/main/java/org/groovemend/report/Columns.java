package org.groovemend.report;

/**
 * Equal division of a side into columns of time: column c holds the frames f with floor(f * columns
 * / frames) = c.
 *
 * <p>Never more columns than frames, so that none is empty; 0 columns for an empty side.
 *
 * @param frames at least 0
 * @param count columns in fact used
 */
record Columns(long frames, int count) {

  static Columns of(long frames, int wanted) {
    if (frames < 0) {
      throw new IllegalArgumentException("frames " + frames + " is negative");
    }
    if (wanted < 1 || wanted > 100_000) {
      throw new IllegalArgumentException("columns " + wanted + " is outside 1 to 100000");
    }
    return new Columns(frames, (int) Math.min(frames, wanted));
  }

  /** First frame of a column; {@code frames} for column {@code count}. */
  long start(int column) {
    // smallest f with floor(f * count / frames) >= column; the product stays below 2^63 for 2^46
    // frames
    return (column * frames + count - 1) / count;
  }

  int of(long frame) {
    return (int) (frame * count / frames);
  }
}
