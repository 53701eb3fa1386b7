package org.groovemend.rumble;

import java.util.Arrays;
import org.groovemend.stage.SegmentWindow;

/**
 * Where a window sounds: everything but digital silence, which is zeros for a tenth of a second or
 * longer, or any zeros from the first or to the last frame of the side. One instance per thread.
 */
final class Sounding {
  static final double SILENCE_SECONDS = 0.1;

  private final int silence;
  private int[] starts = new int[16];
  private int[] ends = new int[16];
  private int count;

  Sounding(int rate) {
    silence = silenceFrames(rate);
  }

  /** Least number of zeros that are silence within a side. */
  static int silenceFrames(int rate) {
    return (int) Math.ceil(SILENCE_SECONDS * rate);
  }

  /** Looks for the stretches of one channel. */
  void find(SegmentWindow window, int channel) {
    double[] x = window.samples()[channel];
    int length = window.length();
    boolean first = window.firstFrame() == 0;
    boolean last = window.firstFrame() + length == window.sideFrames();
    count = 0;
    int start = 0;
    int at = 0;
    while (at < length) {
      if (x[at] != 0) {
        at++;
        continue;
      }
      int zero = at;
      while (at < length && x[at] == 0) {
        at++;
      }
      if (at - zero >= silence || (zero == 0 && first) || (at == length && last)) {
        add(start, zero);
        start = at;
      }
    }
    add(start, length);
  }

  /** The stretches in which both sound. */
  void both(Sounding a, Sounding b) {
    count = 0;
    int j = 0;
    for (int i = 0; i < a.count; i++) {
      while (j < b.count && b.ends[j] <= a.starts[i]) {
        j++;
      }
      for (int k = j; k < b.count && b.starts[k] < a.ends[i]; k++) {
        add(Math.max(a.starts[i], b.starts[k]), Math.min(a.ends[i], b.ends[k]));
      }
    }
  }

  int count() {
    return count;
  }

  /** Index of the first frame of a stretch in the window. */
  int start(int i) {
    return starts[i];
  }

  /** One past the last. */
  int end(int i) {
    return ends[i];
  }

  private void add(int start, int end) {
    if (end <= start) {
      return;
    }
    if (count == starts.length) {
      starts = Arrays.copyOf(starts, 2 * count);
      ends = Arrays.copyOf(ends, 2 * count);
    }
    starts[count] = start;
    ends[count++] = end;
  }
}
