package org.groovemend.surfacenoise;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * What the groove alone sounds like: mean power of each line of the spectrum, for one frame length
 * and the periodic square-root Hann window, unnormalised transform.
 *
 * @param sampleRateHz rate it was taken at
 * @param frameLength samples of a frame
 * @param startFrame first frame of the stretch it was taken from
 * @param endFrame end of that stretch, exclusive
 * @param framesUsed spectra averaged (they overlap by three quarters)
 * @param framesRejected spectra left out because something stood out of the noise
 * @param uncertaintyDb standard deviation of a line before smoothing, in dB
 * @param power [channel][line], {@code frameLength / 2 + 1} lines, all above 0; copied, not to be
 *     written to
 * @param unsteadiness [channel][line], at least 1: by how much the level of the line wavers more
 *     than that of steady noise; the stage takes power times this for the noise. Rumble comes in
 *     surges that its mean power does not show. Doubt about a power that few spectra tell is in it
 *     too
 */
public record GrooveNoise(
    int sampleRateHz,
    int frameLength,
    long startFrame,
    long endFrame,
    int framesUsed,
    int framesRejected,
    double uncertaintyDb,
    double[][] power,
    double[][] unsteadiness) {

  /** Hertz. */
  private static final double LOWEST_HEARD = 20;

  public GrooveNoise {
    double[][] copy = new double[power.length][];
    for (int c = 0; c < power.length; c++) {
      if (power[c].length != frameLength / 2 + 1) {
        throw new IllegalArgumentException(
            power[c].length + " lines for a frame of " + frameLength);
      }
      for (double p : power[c]) {
        if (!(p > 0 && p < Double.POSITIVE_INFINITY)) {
          throw new IllegalArgumentException("noise power " + p + " is not above 0 and finite");
        }
      }
      copy[c] = power[c].clone();
    }
    power = copy;
    double[][] factors = new double[power.length][];
    for (int c = 0; c < power.length; c++) {
      if (unsteadiness[c].length != power[c].length) {
        throw new IllegalArgumentException("power and unsteadiness differ in length");
      }
      factors[c] = unsteadiness[c].clone();
    }
    unsteadiness = factors;
  }

  /** [line] Power times unsteadiness of one channel. */
  double[] takenFor(int channel) {
    double[] product = new double[frameLength / 2 + 1];
    for (int k = 0; k < product.length; k++) {
      product[k] = power[channel][k] * unsteadiness[channel][k];
    }
    return product;
  }

  /**
   * What shorter frames would show on the mean: the spectrum seen through their wider window.
   *
   * @param shorter frame length, this one over a power of two
   */
  GrooveNoise atFrameLength(int shorter) {
    if (shorter >= frameLength || frameLength % shorter != 0) {
      throw new IllegalArgumentException(shorter + " is no part of a frame of " + frameLength);
    }
    double[] kernel = FrameKernel.of(frameLength, shorter);
    double[][] p = new double[power.length][];
    double[][] u = new double[power.length][];
    for (int c = 0; c < power.length; c++) {
      p[c] = FrameKernel.seen(power[c], kernel, frameLength / shorter);
      u[c] = FrameKernel.seen(takenFor(c), kernel, frameLength / shorter);
      for (int k = 0; k < u[c].length; k++) {
        u[c][k] = Math.max(1, u[c][k] / p[c][k]);
      }
    }
    return seenWith(shorter, p, u);
  }

  /** For frames of twice the length: the new lines lie half-way between their neighbours. */
  GrooveNoise atTwiceTheFrameLength() {
    double[][] p = new double[power.length][];
    double[][] u = new double[power.length][];
    for (int c = 0; c < power.length; c++) {
      p[c] = halfway(power[c], 2); // power of a line goes as the length of the frame
      u[c] = halfway(unsteadiness[c], 1);
    }
    return seenWith(2 * frameLength, p, u);
  }

  private GrooveNoise seenWith(int length, double[][] p, double[][] u) {
    return new GrooveNoise(
        sampleRateHz,
        length,
        startFrame,
        endFrame,
        framesUsed,
        framesRejected,
        uncertaintyDb,
        p,
        u);
  }

  private static double[] halfway(double[] lines, double scale) {
    double[] out = new double[2 * lines.length - 1];
    for (int k = 0; k < lines.length; k++) {
      out[2 * k] = scale * lines[k];
    }
    for (int k = 1; k < out.length; k += 2) {
      out[k] = 0.5 * (out[k - 1] + out[k + 1]);
    }
    return out;
  }

  /**
   * Level in a third-octave band.
   *
   * @param centreHz exact centre, 1000 * 10^(n/10)
   * @param levelDbfs one value per channel: mean square in the band, dB re that of a constant 1.0
   */
  public record Band(double centreHz, List<Double> levelDbfs) {}

  /**
   * Third-octave bands (base ten, IEC 61260-1) that lie wholly below half the rate, from 25 Hz on.
   */
  public List<Band> thirdOctaves() {
    List<Band> bands = new ArrayList<>();
    for (int n = -16; ; n++) {
      double centre = 1000 * StrictMath.pow(10, n / 10.0);
      double low = centre * StrictMath.pow(10, -0.05);
      double high = centre * StrictMath.pow(10, 0.05);
      if (high > sampleRateHz / 2.0) {
        return bands;
      }
      List<Double> levels = new ArrayList<>();
      for (double[] p : power) {
        levels.add(10 * StrictMath.log10(Math.max(meanSquare(p, low, high), 1e-30)));
      }
      bands.add(new Band(centre, List.copyOf(levels)));
    }
  }

  /**
   * Level of one channel as a whole, from 20 Hz on.
   *
   * @param weighting gain in dB at a frequency in hertz
   * @return dB re the mean square of a constant 1.0
   */
  public double levelDbfs(int channel, DoubleUnaryOperator weighting) {
    double spacing = sampleRateHz / (double) frameLength;
    double sum = 0;
    for (int k = (int) Math.ceil(LOWEST_HEARD / spacing); k < power[channel].length; k++) {
      double gain = StrictMath.pow(10, weighting.applyAsDouble(k * spacing) / 10);
      // the line at half the rate has no mirror
      sum += gain * power[channel][k] * (2 * k == frameLength ? 0.5 : 1);
    }
    double windowPower = frameLength / 2.0; // sum of squares of the window
    return 10 * StrictMath.log10(Math.max(2 * sum / (windowPower * frameLength), 1e-30));
  }

  /** Each line stands for the density over one line spacing around it. */
  private double meanSquare(double[] p, double lowHz, double highHz) {
    double spacing = sampleRateHz / (double) frameLength;
    double windowPower = frameLength / 2.0; // sum of squares of the window
    double sum = 0;
    int first = Math.max(0, (int) Math.floor(lowHz / spacing - 0.5));
    int last = Math.min(p.length - 1, (int) Math.ceil(highHz / spacing + 0.5));
    for (int k = first; k <= last; k++) {
      double from = Math.max(lowHz, (k - 0.5) * spacing);
      double to = Math.min(highHz, (k + 0.5) * spacing);
      if (to > from) {
        sum += p[k] * (to - from) / spacing;
      }
    }
    return 2 * sum / (windowPower * frameLength);
  }
}
