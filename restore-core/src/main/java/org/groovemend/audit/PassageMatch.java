package org.groovemend.audit;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * Finds a short passage within a longer one by cross-correlation: by the phase transform (C. Knapp
 * and G. C. Carter, IEEE Trans. ASSP 24(4), 1976), all lines alike; and, where that does not stand
 * out, with lines weighted by the inverse of the three quarters power of their amplitude, so that
 * lines of noise count less. Not for several threads at once.
 */
final class PassageMatch {
  private static final double LOW_HERTZ = 100;
  private static final double HIGH_SHARE = 0.45;

  /** From here on the phase transform is enough. */
  private static final double SURE = 12;

  /** Around the peak nothing is counted as noise. */
  private static final double PEAK_SECONDS = 1e-3;

  private static final double FADE_SECONDS = 0.015;

  private final int rate;
  private final int length;
  private final int reach;
  private final RealFft fft;
  private final double[] fade;
  private final double[] a;
  private final double[] b;

  /** Where in the longer passage the shorter begins; found by {@link #run}. */
  int at;

  /** The peak over the root mean square of the rest; 0 if nothing is heard. */
  double height;

  /** Whether one is the other upside down. */
  boolean opposed;

  /**
   * @param length samples of the passage
   * @param reach samples that the other passage is longer, on each side
   */
  PassageMatch(int rate, int length, int reach) {
    this.rate = rate;
    this.length = length;
    this.reach = reach;
    int size = 256;
    while (size < length + 2 * reach) {
      size *= 2;
    }
    fft = new RealFft(size);
    fade = WindowShape.HANN.periodic(2 * Math.max(8, (int) (FADE_SECONDS * rate)));
    a = new double[size];
    b = new double[size];
  }

  int length() {
    return length;
  }

  int reach() {
    return reach;
  }

  /**
   * @param passage {@link #length()} samples from {@code offset} on
   * @param longer {@code length + 2 * reach} samples
   */
  void run(double[] passage, int offset, double[] longer) {
    int n = a.length;
    height = 0;
    at = reach;
    Arrays.fill(a, 0);
    Arrays.fill(b, 0);
    System.arraycopy(passage, offset, a, 0, length);
    System.arraycopy(longer, 0, b, 0, length + 2 * reach);
    taper(a, length);
    taper(b, length + 2 * reach);
    fft.forward(a);
    fft.forward(b);
    int from = Math.max(1, (int) Math.ceil(LOW_HERTZ * n / rate));
    int to = (int) Math.floor(HIGH_SHARE * n);
    double most = 0;
    for (int k = from; k < to; k++) {
      double re = b[2 * k] * a[2 * k] + b[2 * k + 1] * a[2 * k + 1];
      double im = b[2 * k + 1] * a[2 * k] - b[2 * k] * a[2 * k + 1];
      a[2 * k] = re;
      a[2 * k + 1] = im;
      most = Math.max(most, re * re + im * im);
    }
    // below -200 dB of the strongest line there is rounding only
    double least = most * 1e-20;
    if (!(most > 1e-24)) {
      return;
    }
    Arrays.fill(a, 0, 2 * from, 0);
    Arrays.fill(a, 2 * to, n, 0);
    System.arraycopy(a, 0, b, 0, n);
    for (int k = from; k < to; k++) {
      double power = a[2 * k] * a[2 * k] + a[2 * k + 1] * a[2 * k + 1];
      double w = power > least ? 1 / Math.sqrt(power) : 0;
      a[2 * k] *= w;
      a[2 * k + 1] *= w;
      double v = power > least ? weight(power) : 0;
      b[2 * k] *= v;
      b[2 * k + 1] *= v;
    }
    fft.inverse(a);
    peak(a);
    if (height < SURE) {
      fft.inverse(b);
      peak(b);
    }
  }

  /** Sharp ends would find one another. */
  private void taper(double[] x, int count) {
    int n = Math.min(fade.length / 2, count / 4);
    for (int i = 0; i < n; i++) {
      double w = fade[i * (fade.length / 2) / n];
      x[i] *= w;
      x[count - 1 - i] *= w;
    }
  }

  private void peak(double[] r) {
    int best = 0;
    for (int i = 0; i <= 2 * reach; i++) {
      if (Math.abs(r[i]) > Math.abs(r[best])) {
        best = i;
      }
    }
    int apart = (int) Math.ceil(PEAK_SECONDS * rate);
    double sum = 0;
    int count = 0;
    for (int i = 0; i <= 2 * reach; i++) {
      if (Math.abs(i - best) > apart) {
        sum += r[i] * r[i];
        count++;
      }
    }
    double h = count > 0 && sum > 0 ? Math.abs(r[best]) / Math.sqrt(sum / count) : 0;
    if (h > height) {
      at = best;
      opposed = r[best] < 0;
      height = h;
    }
  }

  /** The power to -0.375, by roots: the same on every machine, and fast. */
  private static double weight(double power) {
    double quarter = Math.sqrt(Math.sqrt(power));
    return 1 / Math.sqrt(quarter * Math.sqrt(power));
  }
}
