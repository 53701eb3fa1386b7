package org.groovemend.rumble;

import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.Segmentation;
import org.groovemend.stage.SignalStage;

/**
 * Takes the low part out of every channel, and more of it out of the vertical part where that is
 * rumble. Lateral and vertical part each pass a filter without phase ({@link LowPassShape}).
 *
 * <p>Every stretch that sounds is treated by itself: at its ends it is continued by its mirror
 * image, so that a constant is taken out to the last frame and nothing is foretold. Digital silence
 * stays as it is.
 */
public final class RumbleStage implements SignalStage {
  private static final int SEGMENT = 1 << 18;

  private final RumbleParameters parameters;
  private final RumbleFinding finding;

  RumbleStage(RumbleParameters parameters, RumbleFinding finding) {
    this.parameters = parameters;
    this.finding = finding;
  }

  @Override
  public RumbleParameters parameters() {
    return parameters;
  }

  public RumbleFinding finding() {
    return finding;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    int rate = format.sampleRateHz();
    LowPart low = everywhere(rate);
    LowPart vertical = vertical(rate);
    int reach = Math.max(low == null ? 0 : low.reach(), vertical == null ? 0 : vertical.reach());
    int context = reach + Sounding.silenceFrames(rate);
    return new Segmentation(Math.max(SEGMENT, Integer.highestOneBit(3 * rate)), context, context);
  }

  /** True also if nothing was found that is worth taking. */
  @Override
  public boolean neutral() {
    return !takesLow() && !takesVertical();
  }

  private boolean takesLow() {
    return finding.lowTaken() && parameters.lateral() != null;
  }

  private boolean takesVertical() {
    return parameters.vertical(finding.verticalTaken()) != null;
  }

  /** Null if nothing is taken of every channel. */
  private LowPart everywhere(int rate) {
    return takesLow() ? LowPart.of(rate, parameters.lateral()) : null;
  }

  /** What is taken of the vertical part besides; null for nothing. */
  private LowPart vertical(int rate) {
    if (!takesVertical()) {
      return null;
    }
    LowPassShape wide = parameters.vertical(true);
    return takesLow() ? LowPart.between(rate, parameters.lateral(), wide) : LowPart.of(rate, wide);
  }

  @Override
  public Worker open(AudioFormat format) {
    return new Work(format);
  }

  private final class Work implements Worker {
    private final LowPart low;
    private final LowPart vertical;
    private final Sounding[] sounding;
    private final Sounding both;
    private double[] stretch = new double[0];
    private double[] taken = new double[0];

    Work(AudioFormat format) {
      low = everywhere(format.sampleRateHz());
      vertical = format.channels() == 2 ? vertical(format.sampleRateHz()) : null;
      sounding = new Sounding[format.channels()];
      for (int c = 0; c < sounding.length; c++) {
        sounding[c] = new Sounding(format.sampleRateHz());
      }
      both = new Sounding(format.sampleRateHz());
    }

    @Override
    public void treat(SegmentWindow w, double[][] out) {
      int from = w.startIndex();
      int count = w.endIndex() - from;
      if (taken.length < count) {
        taken = new double[count];
      }
      for (int c = 0; c < w.channels(); c++) {
        System.arraycopy(w.samples()[c], from, out[c], 0, count);
        sounding[c].find(w, c);
        if (low != null) {
          for (int i = 0; i < sounding[c].count(); i++) {
            int begin = Math.max(from, sounding[c].start(i));
            int end = Math.min(from + count, sounding[c].end(i));
            if (begin < end) {
              take(low, w, c, sounding[c], i, begin, end);
              subtract(out[c], begin - from, end - begin, 1);
            }
          }
        }
      }
      if (vertical != null) {
        both.both(sounding[0], sounding[1]);
        for (int i = 0; i < both.count(); i++) {
          int begin = Math.max(from, both.start(i));
          int end = Math.min(from + count, both.end(i));
          if (begin < end) {
            take(vertical, w, -1, both, i, begin, end);
            subtract(out[0], begin - from, end - begin, 1);
            subtract(out[1], begin - from, end - begin, -1);
          }
        }
      }
    }

    /**
     * Makes the low part of the frames {@code begin} to {@code end} of the window, all of them in
     * the i-th stretch.
     *
     * @param channel -1 for the vertical part
     */
    private void take(
        LowPart part, SegmentWindow w, int channel, Sounding where, int i, int begin, int end) {
      int first = begin - part.reach();
      int need = end - begin + 2 * part.reach();
      if (stretch.length < need) {
        stretch = new double[need];
      }
      int start = where.start(i);
      int length = where.end(i) - start;
      int period = 2 * length;
      double[] a = w.samples()[Math.max(0, channel)];
      double[] b = channel < 0 ? w.samples()[1] : null;
      for (int k = 0; k < need; k++) {
        int at = first + k - start;
        if (at < 0 || at >= length) {
          // the mirror image, last frame and all, over and over
          at = Math.floorMod(at, period);
          at = at < length ? at : period - 1 - at;
        }
        stretch[k] = b == null ? a[start + at] : (a[start + at] - b[start + at]) / 2;
      }
      part.of(stretch, w.firstFrame() + begin, w.firstFrame() + end, taken);
    }

    private void subtract(double[] from, int at, int count, double sign) {
      for (int k = 0; k < count; k++) {
        from[at + k] -= sign * taken[k];
      }
    }
  }
}
