package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;

/**
 * The filter that makes the derivative of the original with the least squared error: the cross
 * spectrum of what is still left with the original, over the original's power spectrum, cut to
 * {@link #half} samples on each side, added, and again; a few rounds take out what windows leak.
 * Windows that leave far more than others (a repaired click) are left out. Not for several threads
 * at once.
 */
final class FilterFit {
  private static final double SECONDS = 0.045;
  private static final int ROUNDS = 5;
  private static final int MOST_WINDOWS = 200;

  /** Windows with more times the median of what is left, relative to their power, do not count. */
  private static final double FAR = 4;

  /** Lines weaker than this share of the strongest tell nothing: -120 dB. */
  private static final double NOTHING = 1e-12;

  /** Taps below so many standard deviations of those far from the middle are taken for noise. */
  private static final double TAP_STANDS_OUT = 4;

  private final AlignedSide original;
  private final RangeReader derivative;
  private final int half;
  private final int size;
  private final RealFft fft;
  private final double[] hann;
  private final long[] places;

  FilterFit(AlignedSide original, RangeReader derivative) {
    this.original = original;
    this.derivative = derivative;
    half = half(derivative.format().sampleRateHz());
    size = 4 * half;
    fft = new RealFft(size);
    hann = WindowShape.HANN.periodic(2 * half);
    places = Windows.spread(original.stretches(), 4 * half, MOST_WINDOWS);
  }

  /** Samples of the filter on each side of its middle: a power of two near 45 ms. */
  static int half(int rate) {
    int half = 64;
    while (half * Math.sqrt(2) < SECONDS * rate) {
      half *= 2;
    }
    return half;
  }

  int half() {
    return half;
  }

  /** Length of the transforms. */
  int size() {
    return size;
  }

  int windows() {
    return places.length;
  }

  /** The filter for one channel. */
  Model fit(Mix mix, int channel) throws IOException {
    double[] taps = new double[2 * half + 1];
    taps[half] = mix.gain();
    double[][] x = new double[original.format().channels()][size];
    double[][] y = new double[derivative.format().channels()][size];
    double[] source = new double[size];
    double[] left = new double[size];
    double[] spectrum = new double[size];
    double[] told = new double[size];
    double[] gain = new double[size];
    double[] xx = new double[size / 2];
    double[] rr = new double[size / 2];
    double[] yy = new double[size / 2];
    double[] cross = new double[size];
    double[] share = new double[places.length];
    double[] floors = new double[places.length];
    double limit = Double.POSITIVE_INFINITY;
    for (int round = 0; round <= ROUNDS; round++) {
      spectrumOf(taps, gain);
      Arrays.fill(xx, 0);
      Arrays.fill(rr, 0);
      Arrays.fill(yy, 0);
      Arrays.fill(cross, 0);
      for (int w = 0; w < places.length; w++) {
        original.read(places[w], size, x);
        derivative.read(places[w], size, y);
        mix.take(x, size, source);
        System.arraycopy(source, 0, spectrum, 0, size);
        fft.forward(spectrum);
        multiply(spectrum, gain);
        fft.inverse(spectrum);
        // the middle half is free of the wrap round the circle
        double power = 0;
        double rest = 0;
        for (int i = 0; i < size; i++) {
          left[i] = y[channel][i] - spectrum[i];
        }
        for (int i = half; i < 3 * half; i++) {
          power += y[channel][i] * y[channel][i];
          rest += left[i] * left[i];
        }
        double[] sizes = Arrays.copyOfRange(left, half, 3 * half);
        for (int i = 0; i < sizes.length; i++) {
          sizes[i] = Math.abs(sizes[i]);
        }
        floors[w] = 1.4826 * Median.of(sizes, 0, sizes.length);
        share[w] = power > 0 ? rest / power : 0;
        if (share[w] > limit || !(power > 0)) {
          continue;
        }
        windowed(source, told);
        windowed(left, spectrum);
        fft.forward(told);
        fft.forward(spectrum);
        for (int k = 1; k < size / 2; k++) {
          double a = told[2 * k];
          double b = told[2 * k + 1];
          double c = spectrum[2 * k];
          double d = spectrum[2 * k + 1];
          xx[k] += a * a + b * b;
          rr[k] += c * c + d * d;
          cross[2 * k] += c * a + d * b;
          cross[2 * k + 1] += d * a - c * b;
        }
        windowed(y[channel], told);
        fft.forward(told);
        for (int k = 1; k < size / 2; k++) {
          yy[k] += told[2 * k] * told[2 * k] + told[2 * k + 1] * told[2 * k + 1];
        }
      }
      limit = FAR * Median.of(share.clone(), 0, share.length) + 1e-18;
      if (round < ROUNDS) {
        improve(taps, cross, xx);
        if (round >= 1) {
          withoutNoise(taps);
        }
      }
    }
    double[] coherence = new double[size / 2];
    for (int k = 1; k < coherence.length; k++) {
      coherence[k] = yy[k] > 0 ? Math.max(0, 1 - rr[k] / yy[k]) : 0;
    }
    Arrays.sort(floors);
    return new Model(
        mix, mix.gain(), taps, Model.middle(floors), Model.steady(floors), 0, false, coherence);
  }

  private void windowed(double[] x, double[] out) {
    Arrays.fill(out, 0);
    for (int i = 0; i < 2 * half; i++) {
      out[half + i] = hann[i] * x[half + i];
    }
  }

  /** Spectrum of the taps, their middle at time 0. */
  void spectrumOf(double[] taps, double[] out) {
    Arrays.fill(out, 0);
    for (int i = -half; i <= half; i++) {
      out[(i + size) % size] += taps[i + half];
    }
    fft.forward(out);
  }

  private static void multiply(double[] a, double[] b) {
    a[0] *= b[0];
    a[1] *= b[1];
    for (int k = 2; k < a.length; k += 2) {
      double re = a[k] * b[k] - a[k + 1] * b[k + 1];
      a[k + 1] = a[k] * b[k + 1] + a[k + 1] * b[k];
      a[k] = re;
    }
  }

  /** What was measured has noise in every tap; a filter of few taps must not bring it along. */
  private void withoutNoise(double[] taps) {
    double[] far = new double[half];
    for (int i = 0; i < half / 2; i++) {
      far[2 * i] = Math.abs(taps[i]);
      far[2 * i + 1] = Math.abs(taps[2 * half - i]);
    }
    // the outermost eighth fades out
    double limit = TAP_STANDS_OUT * RobustScale.NORMAL * Median.of(far, half / 4, half);
    for (int i = 0; i < taps.length; i++) {
      if (Math.abs(taps[i]) < limit) {
        taps[i] = 0;
      }
    }
  }

  private void improve(double[] taps, double[] cross, double[] power) {
    double most = 0;
    for (double p : power) {
      most = Math.max(most, p);
    }
    double least = NOTHING * most;
    double[] h = new double[size];
    for (int k = 1; k < size / 2; k++) {
      double p = power[k] + least;
      h[2 * k] = p > 0 ? cross[2 * k] / p : 0;
      h[2 * k + 1] = p > 0 ? cross[2 * k + 1] / p : 0;
    }
    h[0] = h[2];
    fft.inverse(h);
    int flat = half - half / 8;
    for (int i = -half; i <= half; i++) {
      double w =
          Math.abs(i) <= flat
              ? 1
              : 0.5 + 0.5 * StrictMath.cos(Math.PI * (Math.abs(i) - flat) / (half - flat));
      taps[i + half] += w * h[(i + size) % size];
    }
  }
}
