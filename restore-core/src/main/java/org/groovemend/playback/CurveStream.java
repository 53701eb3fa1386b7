package org.groovemend.playback;

/**
 * The curve stage's change of one channel that comes by in order, block after block, from rest. Not
 * for more than one thread.
 */
public final class CurveStream {
  /** More samples than any of the filters looks back. */
  private static final int HISTORY = 64;

  private final CurveChange change;

  /** Input of the first step, then the output of each; the first {@link #HISTORY} are the past. */
  private final double[][] signals;

  /**
   * @param mostFrames most that will be given at once
   */
  public CurveStream(CurveParameters parameters, int sampleRateHz, int mostFrames) {
    change = new CurveChange(parameters, sampleRateHz);
    signals = new double[change.steps() + 1][HISTORY + mostFrames];
  }

  /** Treats the next {@code count} samples of {@code x} into {@code out}. */
  public void next(double[] x, double[] out, int count) {
    System.arraycopy(x, 0, signals[0], HISTORY, count);
    change.continueWith(signals, HISTORY, HISTORY + count);
    double[] last = signals[signals.length - 1];
    for (int i = 0; i < count; i++) {
      out[i] = change.gain() * last[HISTORY + i];
    }
    for (double[] signal : signals) {
      System.arraycopy(signal, count, signal, 0, HISTORY);
    }
  }
}
