package org.groovemend.speed;

import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * Partials in one frame: peaks of the spectrum that stand alone, with their frequencies from the
 * spectrum under the window and under the window's derivative (reassignment: F. Auger and P.
 * Flandrin, IEEE Trans. Signal Processing 43(5), 1995). To first order the frequency is the mean of
 * the instantaneous one under the window, see {@link #kept}.
 */
final class PeakFinder {

  /** Most peaks of one frame. */
  static final int MOST = 16;

  private static final double LOWEST_HZ = 70;

  /** Below the strongest of the frame, as power: 45 dB. */
  private static final double FAINT = 3.2e-5;

  /** Power over that three and four lines away: a lone sinusoid has far more. */
  private static final double OVER_VALLEY = 10;

  /** How far, in lines, the neighbours of a peak may see it elsewhere. */
  private static final double AGREE = 0.12;

  private final int size;
  private final int rate;
  private final RealFft fft;
  private final double[] window;
  private final double[] derivative;
  private final double[] a;
  private final double[] b;
  private final double[] power;
  private final int[] place = new int[MOST];

  /** Frequencies of the peaks found last, Hz, growing, and which are a lower one's multiples. */
  final double[] hertz = new double[MOST];

  final boolean[] upper = new boolean[MOST];

  PeakFinder(int size, int rate) {
    this.size = size;
    this.rate = rate;
    fft = new RealFft(size);
    window = WindowShape.HANN.periodic(size);
    derivative = new double[size];
    for (int n = 0; n < size; n++) {
      derivative[n] = Math.PI / size * StrictMath.sin(2 * Math.PI * n / size);
    }
    a = new double[size];
    b = new double[size];
    power = new double[size / 2];
  }

  /**
   * Share of a sway of the frequency that is left in what is measured: the window's transform.
   *
   * @param cycles of the sway within the window
   */
  static double kept(double cycles) {
    if (cycles == 0) {
      return 1;
    }
    double x = Math.PI * cycles;
    return StrictMath.sin(x) / x / (1 - cycles * cycles);
  }

  /** Looks at {@code x[from]} on; returns how many peaks there are. */
  int find(double[] x, int from) {
    for (int n = 0; n < size; n++) {
      a[n] = x[from + n] * window[n];
      b[n] = x[from + n] * derivative[n];
    }
    fft.forward(a);
    fft.forward(b);
    double most = 0;
    for (int k = 1; k < power.length; k++) {
      power[k] = a[2 * k] * a[2 * k] + a[2 * k + 1] * a[2 * k + 1];
      most = Math.max(most, power[k]);
    }
    int low = Math.max(6, (int) Math.ceil(LOWEST_HZ * size / rate));
    int count = 0;
    for (int k = low; k < (int) (0.42 * size); k++) {
      double p = power[k];
      if (p <= FAINT * most || p < power[k - 1] || p <= power[k + 1]) {
        continue;
      }
      double valley = power[k - 4] + power[k - 3] + power[k + 3] + power[k + 4];
      if (4 * p < OVER_VALLEY * valley || !(p > 0) || !agreed(k)) {
        continue;
      }
      count = keep(k, count);
    }
    for (int i = 0; i < count; i++) {
      hertz[i] = (place[i] - shift(place[i])) * rate / size;
    }
    markUpper(count);
    return count;
  }

  /** Keeps the strongest, in order of place. */
  private int keep(int k, int count) {
    if (count < MOST) {
      place[count] = k;
      return count + 1;
    }
    int weakest = 0;
    for (int i = 1; i < MOST; i++) {
      weakest = power[place[i]] < power[place[weakest]] ? i : weakest;
    }
    if (power[k] > power[place[weakest]]) {
      System.arraycopy(place, weakest + 1, place, weakest, MOST - 1 - weakest);
      place[MOST - 1] = k;
    }
    return count;
  }

  /** How far, in lines, the true frequency lies below the line. */
  private double shift(int k) {
    double cross = b[2 * k + 1] * a[2 * k] - b[2 * k] * a[2 * k + 1];
    return cross / power[k] * size / (2 * Math.PI);
  }

  private boolean agreed(int k) {
    double here = k - shift(k);
    return Math.abs(k - 1 - shift(k - 1) - here) < AGREE
        && Math.abs(k + 1 - shift(k + 1) - here) < AGREE
        && Math.abs(here - k) < 1;
  }

  /** Multiples of a lower peak but its octaves: they lie off the scale of twelve notes. */
  private void markUpper(int count) {
    for (int i = 0; i < count; i++) {
      upper[i] = false;
      for (int j = 0; j < i; j++) {
        double ratio = hertz[i] / hertz[j];
        int k = (int) Math.rint(ratio);
        if (k >= 3 && Integer.bitCount(k) > 1 && Math.abs(ratio / k - 1) < 0.006) {
          upper[i] = true;
        }
      }
    }
  }
}
