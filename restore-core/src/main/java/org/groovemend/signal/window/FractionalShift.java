package org.groovemend.signal.window;

import org.groovemend.signal.special.Bessel;

/**
 * Band-limited values between samples: a sinc under a Kaiser window (T. Laakso, V. Välimäki, M.
 * Karjalainen and U. Laine, "Splitting the unit delay", IEEE Signal Processing Magazine 13(1),
 * 1996; Kaiser's window as in {@link KaiserLowPass}).
 *
 * <p>Up to the pass band's edge gain and delay are exact to about the attenuation asked for; above
 * it, to half the sampling rate, the gain falls. One instance per thread; allocates nothing after
 * construction.
 */
public final class FractionalShift {
  private final int half;
  private final double beta;
  private final double top;
  private final double[] taps;
  private double made = Double.NaN;

  /**
   * @param passEdge end of the pass band, share of the sampling rate, below 0.5
   * @param stopDb error of pass band, above 50
   */
  public FractionalShift(double passEdge, double stopDb) {
    if (!(passEdge > 0 && passEdge < 0.5)) {
      throw new IllegalArgumentException("pass band edge " + passEdge + " is outside 0 to 0.5");
    }
    half = KaiserLowPass.half(stopDb, 2 * (0.5 - passEdge));
    beta = KaiserLowPass.beta(stopDb);
    top = Bessel.logI0(beta);
    taps = new double[2 * half + 1];
  }

  /** Samples needed on each side of the nearest one. */
  public int half() {
    return half;
  }

  /**
   * Writes {@code out[o + i] = x(at + i + shift)} for i from 0 to {@code count - 1}; what lies
   * outside {@code x[0, length)} is 0. A shift that is a whole number moves samples bit for bit.
   */
  public void shift(
      double[] x, int length, int at, double shift, double[] out, int offset, int count) {
    int whole = (int) Math.rint(shift);
    design(shift - whole);
    int first = at + whole;
    for (int i = 0; i < count; i++) {
      int centre = first + i;
      int from = Math.max(-half, -centre);
      int to = Math.min(half, length - 1 - centre);
      double sum = 0;
      for (int k = from; k <= to; k++) {
        sum += taps[k + half] * x[centre + k];
      }
      out[offset + i] = sum;
    }
  }

  /** Taps for a part of a sample; they add up to 1. */
  private void design(double part) {
    if (part == made) {
      return;
    }
    made = part;
    double sine = StrictMath.sin(Math.PI * part) / Math.PI;
    double sum = 0;
    for (int k = -half; k <= half; k++) {
      double x = k - part;
      double window = KaiserLowPass.weight(x / (half + 1.0), beta, top);
      // sin(pi (part - k)) without its rounding
      double sinc = x == 0 ? 1 : ((k & 1) == 0 ? -sine : sine) / x;
      taps[k + half] = window * sinc;
      sum += taps[k + half];
    }
    for (int i = 0; i < taps.length; i++) {
      taps[i] /= sum;
    }
  }
}
