package org.groovemend.signal.delay;

import org.groovemend.signal.fft.RealFft;

/**
 * What spectra summed over frames tell of the delay between two signals.
 *
 * <p>Each line of a cross spectrum has a phase whose variance is (1 - c) / (2 n c), c the squared
 * coherence and n the frames (G. C. Carter, "Coherence and time delay estimation", Proc. IEEE
 * 75(2), 1987); its inverse is its weight, which makes the peak of the weighted correlation the
 * maximum-likelihood estimate (C. Knapp and G. C. Carter, "The generalized correlation method for
 * estimation of time delay", IEEE Trans. ASSP 24(4), 1976). The bound on the variance is the
 * inverse sum of weight times squared angular frequency.
 *
 * <p>The cross spectrum is the first signal's spectrum times the conjugate of the second's: a
 * second signal that comes d samples later turns it by +omega d. Not for several threads.
 */
public final class DelayLikelihood {

  /** No line counts more than if it stood 30 dB over the noise: nothing fits better than that. */
  private static final double MOST_COHERENCE = 0.999;

  /** Lines averaged on each side for the coherence. */
  private static final int REACH = 2;

  /** Independent lines among them: Hann's noise bandwidth is 1.5. */
  private static final double LINES = (2 * REACH + 1) / 1.5;

  /** Of frames that overlap by half: squared correlation 1/36 with each neighbour. */
  private static final double FRAMES_ALIKE = 1 + 2.0 / 36;

  private static final int STEPS = 12;
  private static final double NEGLIGIBLE_SAMPLES = 1e-7;

  private final int length;
  private final int firstBin;
  private final double[] real;
  private final double[] imaginary;
  private final double[] weight;

  /**
   * Knows nothing yet.
   *
   * @param length samples of a frame
   * @param firstBin first line that counts, {@value #REACH} or more from both ends
   * @param lastBin last one
   */
  public DelayLikelihood(int length, int firstBin, int lastBin) {
    this.length = length;
    this.firstBin = firstBin;
    int n = lastBin - firstBin + 1;
    real = new double[n];
    imaginary = new double[n];
    weight = new double[n];
  }

  /**
   * Takes what sums over Hann frames that overlap by half tell, in place of what was known.
   *
   * @param first power of the first signal by line
   * @param second of the second
   * @param crossReal real part of the cross spectrum
   * @param crossImaginary imaginary part
   * @param frames summed, at least 1
   * @return false if nothing is shared
   */
  public boolean weigh(
      double[] first, double[] second, double[] crossReal, double[] crossImaginary, int frames) {
    double averaged = Math.max(1, frames / FRAMES_ALIKE) * LINES;
    // all lines together tell no more than lines of frames that do not overlap
    double told = frames / 2.0;
    boolean any = false;
    for (int i = 0; i < weight.length; i++) {
      weight[i] = 0;
      real[i] = 0;
      imaginary[i] = 0;
      double left = 0;
      double right = 0;
      double re = 0;
      double im = 0;
      for (int k = firstBin + i - REACH; k <= firstBin + i + REACH; k++) {
        left += first[k];
        right += second[k];
        re += crossReal[k];
        im += crossImaginary[k];
      }
      double power = left * right;
      if (!(power > 0)) {
        continue;
      }
      double shared = re * re + im * im;
      // unrelated signals show a coherence of one over the number averaged
      double coherence = (shared / power - 1 / averaged) / (1 - 1 / averaged);
      if (!(coherence > 0)) {
        continue;
      }
      coherence = Math.min(coherence, MOST_COHERENCE);
      double w = 2 * told * coherence / (1 - coherence);
      double size = Math.sqrt(shared) / (2 * REACH + 1);
      weight[i] = w;
      real[i] = w * crossReal[firstBin + i] / size;
      imaginary[i] = w * crossImaginary[firstBin + i] / size;
      any = true;
    }
    return any;
  }

  /**
   * The same where the noise is known: least squares of the difference, each line by the inverse of
   * its noise, which is the maximum likelihood for Gaussian noise.
   *
   * @param crossReal real part of the cross spectrum, both signals at one level
   * @param crossImaginary imaginary part
   * @param noise power by line of the difference of the two in one frame, above 0
   */
  public void weighAgainst(double[] crossReal, double[] crossImaginary, double[] noise) {
    for (int i = 0; i < weight.length; i++) {
      int k = firstBin + i;
      // a line of one frame has a phase of variance noise / (2 power); frames overlap by half
      real[i] = crossReal[k] / noise[k];
      imaginary[i] = crossImaginary[k] / noise[k];
      weight[i] = Math.sqrt(real[i] * real[i] + imaginary[i] * imaginary[i]);
    }
  }

  /** Adds what another one knows, of the same frames and lines. */
  public void add(DelayLikelihood other) {
    for (int i = 0; i < weight.length; i++) {
      real[i] += other.real[i];
      imaginary[i] += other.imaginary[i];
      weight[i] += other.weight[i];
    }
  }

  private double omega(int i) {
    return 2 * Math.PI * (firstBin + i) / length;
  }

  /**
   * The whole number of samples at which the weighted correlation is largest in magnitude.
   *
   * @param most largest delay that is looked at, either way; below half a frame
   */
  public int nearest(int most) {
    double[] x = new double[length];
    for (int i = 0; i < real.length; i++) {
      x[2 * (firstBin + i)] = real[i];
      x[2 * (firstBin + i) + 1] = imaginary[i];
    }
    new RealFft(length).inverse(x);
    int best = 0;
    double largest = Math.abs(x[0]);
    for (int d = 1; d <= most; d++) {
      // the second signal d behind turns phases forward: its peak lies at -d
      double behind = Math.abs(x[length - d]);
      double before = Math.abs(x[d]);
      if (Math.max(behind, before) > largest) {
        largest = Math.max(behind, before);
        best = behind > before ? d : -d;
      }
    }
    return best;
  }

  /** Weighted correlation at a delay in samples; negative where the signals have opposite sense. */
  public double height(double delay) {
    double sum = 0;
    for (int i = 0; i < real.length; i++) {
      double turn = omega(i) * delay;
      sum += real[i] * StrictMath.cos(turn) + imaginary[i] * StrictMath.sin(turn);
    }
    return sum;
  }

  /** Sum of all weights: what {@link #height} would be if all phases agreed. */
  public double mostHeight() {
    double sum = 0;
    for (double w : weight) {
      sum += w;
    }
    return sum;
  }

  /**
   * Newton's steps to the top; each at most half a sample, all of them at most two.
   *
   * @param opposed true if the signals have opposite sense
   */
  public double refine(double from, boolean opposed) {
    double d = from;
    for (int round = 0; round < STEPS; round++) {
      double slope = 0;
      double bend = 0;
      for (int i = 0; i < real.length; i++) {
        if (weight[i] == 0) {
          continue;
        }
        double w = omega(i);
        double c = StrictMath.cos(w * d);
        double s = StrictMath.sin(w * d);
        double along = real[i] * c + imaginary[i] * s;
        double across = imaginary[i] * c - real[i] * s;
        slope += w * across;
        bend += w * w * along;
      }
      if (opposed) {
        slope = -slope;
        bend = -bend;
      }
      if (!(bend > 0)) {
        // no top here: a small step uphill
        d += slope > 0 ? 0.1 : slope < 0 ? -0.1 : 0;
      } else {
        double step = slope / bend;
        d += Math.max(-0.5, Math.min(0.5, step));
        if (Math.abs(step) < NEGLIGIBLE_SAMPLES) {
          break;
        }
      }
      d = Math.max(from - 2, Math.min(from + 2, d));
    }
    return d;
  }

  /** Least standard deviation that any estimate can have, samples; infinite if nothing is known. */
  public double bound() {
    double information = 0;
    for (int i = 0; i < weight.length; i++) {
      double w = omega(i);
      information += w * w * weight[i];
    }
    return 1 / Math.sqrt(information);
  }
}
