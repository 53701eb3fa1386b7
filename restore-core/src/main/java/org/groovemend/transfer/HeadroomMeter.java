package org.groovemend.transfer;

import java.util.Arrays;

/**
 * Tells the peaks of music from those of clicks by how long they last: in windows of {@value
 * #WINDOW_MS} ms the magnitude that {@value #LASTING_MS} of the milliseconds reach or pass. A click
 * is over before; a tone above 50 Hz reads within 0.5 dB of its peak.
 */
public final class HeadroomMeter implements BlockMeter {
  static final int WINDOW_MS = 50;
  static final int LASTING_MS = 10;

  private final int millisecond;
  private final double[][] peaks;
  private final double[] current;
  private final double[] work = new double[WINDOW_MS];
  private double music;
  private int inSlot;
  private int slots;

  public HeadroomMeter(int sampleRateHz, int channels) {
    millisecond = Math.max(1, sampleRateHz / 1000);
    peaks = new double[channels][WINDOW_MS];
    current = new double[channels];
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    for (int done = 0; done < count; ) {
      int n = Math.min(count - done, millisecond - inSlot);
      for (int c = 0; c < current.length; c++) {
        double most = current[c];
        double[] x = samples[c];
        for (int i = done; i < done + n; i++) {
          // not Math.max, which minds signed zeros and is many times slower
          double size = Math.abs(x[i]);
          most = size > most ? size : most;
        }
        current[c] = most;
      }
      done += n;
      inSlot += n;
      if (inSlot == millisecond) {
        endSlot();
      }
    }
  }

  private void endSlot() {
    for (int c = 0; c < current.length; c++) {
      peaks[c][slots] = current[c];
      current[c] = 0;
    }
    inSlot = 0;
    if (++slots == WINDOW_MS) {
      slots = 0;
      for (double[] channel : peaks) {
        System.arraycopy(channel, 0, work, 0, WINDOW_MS);
        Arrays.sort(work);
        music = Math.max(music, work[WINDOW_MS - LASTING_MS]);
      }
    }
  }

  /** Peak of what lasts, full scale 1.0; 0 for silence or less than one window. */
  public double finish() {
    return music;
  }
}
