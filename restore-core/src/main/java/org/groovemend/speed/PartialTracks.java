package org.groovemend.speed;

import java.util.Arrays;

/**
 * Partials followed from frame to frame: the logarithm of the frequency over time, note by note.
 * Some 4 kB for each second of dense music.
 */
final class PartialTracks {

  /** Frames left out at either end, where the note comes and goes. */
  private static final int ENDS = 2;

  /** Frames that a track has at least, without its ends. */
  private static final int SHORTEST = 8;

  /** Most that a partial may move from frame to frame: ten cents, in octaves. */
  private static final double STEP = 10.0 / 1200;

  private static final double LN2 = 0.6931471805599453;

  /**
   * Of each frame: moment of its middle in seconds is {@code (frame * hop + size / 2.0) / rate}.
   */
  final int rate;

  final int size;
  final int hop;

  private int tracks;
  private int[] firstValue = new int[1024];
  private int[] firstFrame = new int[1024];
  private boolean[] upper = new boolean[1024];
  private float[] values = new float[1 << 14];
  private int used;
  private int frames;

  private final double[][] open = new double[PeakFinder.MOST][];
  private final int[] length = new int[PeakFinder.MOST];
  private final int[] uppers = new int[PeakFinder.MOST];
  private final int[] next = new int[PeakFinder.MOST];
  private int openCount;
  private final boolean[] taken = new boolean[PeakFinder.MOST];
  private final double[] octaves = new double[PeakFinder.MOST];

  PartialTracks(int rate, int size, int hop) {
    this.rate = rate;
    this.size = size;
    this.hop = hop;
    for (int i = 0; i < open.length; i++) {
      open[i] = new double[64];
    }
  }

  /** Takes the peaks of the next frame. */
  void add(PeakFinder peaks, int count) {
    Arrays.fill(taken, false);
    Arrays.fill(next, -1);
    for (int i = 0; i < count; i++) {
      octaves[i] = StrictMath.log(peaks.hertz[i]) / LN2;
    }
    for (int i = 0; i < openCount; i++) {
      double last = open[i][length[i] - 1];
      int best = -1;
      for (int j = 0; j < count; j++) {
        double off = Math.abs(octaves[j] - last);
        if (!taken[j] && off < STEP && (best < 0 || off < Math.abs(octaves[best] - last))) {
          best = j;
        }
      }
      if (best >= 0) {
        taken[best] = true;
        next[i] = best;
      }
    }
    int kept = 0;
    for (int i = 0; i < openCount; i++) {
      if (next[i] < 0) {
        close(i);
        continue;
      }
      swap(i, kept);
      append(kept, octaves[next[i]], peaks.upper[next[i]]);
      kept++;
    }
    openCount = kept;
    for (int j = 0; j < count && openCount < open.length; j++) {
      if (!taken[j]) {
        length[openCount] = 0;
        uppers[openCount] = 0;
        append(openCount, octaves[j], peaks.upper[j]);
        openCount++;
      }
    }
    frames++;
  }

  private void swap(int i, int j) {
    double[] array = open[i];
    open[i] = open[j];
    open[j] = array;
    int n = length[i];
    length[i] = length[j];
    length[j] = n;
    int u = uppers[i];
    uppers[i] = uppers[j];
    uppers[j] = u;
    // the peak that follows stays with the loop that asked for it
  }

  private void append(int i, double octaves, boolean isUpper) {
    if (length[i] == open[i].length) {
      open[i] = Arrays.copyOf(open[i], 2 * length[i]);
    }
    open[i][length[i]++] = octaves;
    uppers[i] += isUpper ? 1 : 0;
  }

  /** Ends what is still open. */
  void finish() {
    for (int i = 0; i < openCount; i++) {
      close(i);
    }
    openCount = 0;
  }

  private void close(int i) {
    int n = length[i] - 2 * ENDS;
    if (n < SHORTEST) {
      return;
    }
    if (tracks + 1 >= firstValue.length) {
      firstValue = Arrays.copyOf(firstValue, 2 * firstValue.length);
      firstFrame = Arrays.copyOf(firstFrame, firstValue.length);
      upper = Arrays.copyOf(upper, firstValue.length);
    }
    while (used + n > values.length) {
      values = Arrays.copyOf(values, 2 * values.length);
    }
    firstValue[tracks] = used;
    firstFrame[tracks] = frames - length[i] + ENDS;
    upper[tracks] = 10 * uppers[i] > 3 * length[i];
    for (int k = 0; k < n; k++) {
      values[used + k] = (float) open[i][ENDS + k];
    }
    used += n;
    tracks++;
    firstValue[tracks] = used;
  }

  int count() {
    return tracks;
  }

  /** Frames of the side. */
  int frames() {
    return frames;
  }

  int firstFrame(int track) {
    return firstFrame[track];
  }

  int length(int track) {
    return firstValue[track + 1] - firstValue[track];
  }

  /** Octaves above 1 Hz. */
  double octaves(int track, int k) {
    return values[firstValue[track] + k];
  }

  /** True for the third, fifth and the like of a partial that sounds below. */
  boolean upper(int track) {
    return upper[track];
  }

  double seconds(double frame) {
    return (frame * hop + size / 2.0) / rate;
  }
}
