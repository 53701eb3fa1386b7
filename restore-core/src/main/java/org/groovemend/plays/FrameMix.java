package org.groovemend.plays;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/** Transforms of a stretch, frames on a fixed grid: to sum powers, or to mix. One per thread. */
final class FrameMix {
  private static final double SECONDS = 0.09;

  private final int rate;
  private final int length;
  private final double[] window;
  private final RealFft fft;
  private final ThirdOctaves octaves;
  private final double[][] spectra;
  private final double[] sum;
  private final double[] byBand;
  private final double[] byLine;
  private final double[] gainByLine;
  private final double norm;

  FrameMix(int rate, int plays) {
    this.rate = rate;
    length = length(rate);
    fft = new RealFft(length);
    octaves = new ThirdOctaves(rate, length);
    // the root of Hann's window before and after: their product adds up to 1
    window = WindowShape.HANN.periodic(length);
    double square = 0;
    for (int i = 0; i < length; i++) {
      window[i] = Math.sqrt(window[i]);
      square += window[i] * window[i];
    }
    norm = 2 / (square * length);
    spectra = new double[plays][length];
    sum = new double[length];
    byBand = new double[octaves.count()];
    byLine = new double[length / 2 + 1];
    gainByLine = new double[length / 2 + 1];
  }

  static int length(int rate) {
    return 1 << (int) Math.round(StrictMath.log(SECONDS * rate) / StrictMath.log(2));
  }

  int length() {
    return length;
  }

  ThirdOctaves octaves() {
    return octaves;
  }

  /** Adds the powers of the frame that begins at {@code at}; {@code x} as {@link Stretch} parts. */
  void measure(double[][][] x, int at, Powers powers) {
    for (int c = 0; c < x[0].length; c++) {
      for (int p = 0; p < x.length; p++) {
        for (int i = 0; i < length; i++) {
          double whole = p == 0 ? x[0][c][at + i] : x[0][c][at + i] + x[p][c][at + i];
          spectra[p][i] = window[i] * whole;
        }
        fft.forward(spectra[p]);
      }
      powers.add(c, spectra, octaves, norm);
    }
  }

  /**
   * Adds to the reference what the others contribute in the frame that begins at {@code at}.
   *
   * @param place middle of the frame in passages
   * @param there which plays are there
   */
  void mix(double[][][] x, int at, Weights weights, double place, boolean[] there, double[][] out) {
    for (int c = 0; c < x[0].length; c++) {
      load(x[0][c], at, spectra[0]);
      Arrays.fill(sum, 0);
      boolean any = false;
      for (int p = 1; p < x.length; p++) {
        if (there[p]) {
          load(x[p][c], at, spectra[p]);
          weights.between(place, p, c, byBand);
          octaves.spread(byBand, byLine);
          for (int b = 0; b < byBand.length; b++) {
            byBand[b] = weights.gain(p, c, b);
          }
          octaves.spread(byBand, gainByLine);
          add(spectra[p], spectra[0]);
          any = true;
        }
      }
      if (any) {
        fft.inverse(sum);
        for (int i = 0; i < length; i++) {
          out[c][at + i] += window[i] * sum[i];
        }
      }
    }
  }

  private void load(double[] x, int at, double[] into) {
    for (int i = 0; i < length; i++) {
      into[i] = window[i] * x[at + i];
    }
    fft.forward(into);
  }

  /** Weight times (gain times (reference and difference) less reference). */
  private void add(double[] difference, double[] reference) {
    int half = length / 2;
    for (int k = 1; k < half; k++) {
      double w = byLine[k];
      double g = gainByLine[k];
      sum[2 * k] += w * (g * difference[2 * k] + (g - 1) * reference[2 * k]);
      sum[2 * k + 1] += w * (g * difference[2 * k + 1] + (g - 1) * reference[2 * k + 1]);
    }
    sum[0] += byLine[0] * (gainByLine[0] * difference[0] + (gainByLine[0] - 1) * reference[0]);
  }

  int rate() {
    return rate;
  }
}
