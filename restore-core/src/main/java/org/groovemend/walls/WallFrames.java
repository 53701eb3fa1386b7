package org.groovemend.walls;

/**
 * Length of the spectra: a power of two near 85 ms, every half of it; and how many make a second.
 *
 * @param rate samples a second
 * @param length samples of a frame
 */
record WallFrames(int rate, int length) {
  private static final double SECONDS = 0.085;

  static WallFrames of(int rate) {
    int length = 64;
    while (length * Math.sqrt(2) < SECONDS * rate) {
      length *= 2;
    }
    return new WallFrames(rate, length);
  }

  int hop() {
    return length / 2;
  }

  /** Frames in so many seconds, 1 or more. */
  int framesIn(double seconds) {
    return (int) Math.max(1, Math.rint(seconds * rate / hop()));
  }

  OctaveBands octaves() {
    return OctaveBands.of(rate, length);
  }
}
