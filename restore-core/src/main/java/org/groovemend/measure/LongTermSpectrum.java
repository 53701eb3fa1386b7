package org.groovemend.measure;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * Long-term average spectrum in third octaves, block by block: Welch's averaged periodograms (P. D.
 * Welch, 1967) with a Hann window, half overlapped; mean power of the channels. Any cut into blocks
 * gives the same.
 */
public final class LongTermSpectrum {
  private static final double SECONDS = 0.17;
  private static final int LOWEST = -16;
  private static final double LOWEST_HERTZ = 25;

  private final int rate;
  private final int length;
  private final double[] window;
  private final double[][] held;
  private final double[] work;
  private final double[] power;
  private final RealFft fft;
  private final double norm;
  private int filled;
  private long spectra;

  public LongTermSpectrum(int sampleRateHz, int channels) {
    rate = sampleRateHz;
    length = Integer.highestOneBit((int) (2 * SECONDS * sampleRateHz));
    window = WindowShape.HANN.periodic(length);
    held = new double[channels][length];
    work = new double[length];
    power = new double[length / 2 + 1];
    fft = new RealFft(length);
    double square = 0;
    for (double w : window) {
      square += w * w;
    }
    // sum over all lines is the mean square
    norm = 1 / (square * length * channels);
  }

  /** Takes the next block. */
  public void accept(double[][] x, int count) {
    int at = 0;
    while (at < count) {
      int n = Math.min(count - at, length - filled);
      for (int c = 0; c < held.length; c++) {
        System.arraycopy(x[c], at, held[c], filled, n);
      }
      filled += n;
      at += n;
      if (filled == length) {
        transform();
        for (double[] channel : held) {
          System.arraycopy(channel, length / 2, channel, 0, length / 2);
        }
        filled = length / 2;
      }
    }
  }

  private void transform() {
    for (double[] channel : held) {
      for (int i = 0; i < length; i++) {
        work[i] = window[i] * channel[i];
      }
      fft.forward(work);
      power[0] += norm * work[0] * work[0];
      power[length / 2] += norm * work[1] * work[1];
      for (int k = 1; k < length / 2; k++) {
        power[k] += 2 * norm * (work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1]);
      }
    }
    spectra++;
  }

  /**
   * A band.
   *
   * @param centreHz exact centre, 1000 * 10^(n/10)
   * @param levelDbfs mean square in it, dB re that of a constant 1.0; negative infinity for silence
   */
  public record Band(double centreHz, double levelDbfs) {}

  /**
   * Third octaves (base ten, IEC 61260-1) from 25 Hz on that lie wholly below half the rate; none
   * if less than one frame came.
   */
  public List<Band> thirdOctaves() {
    List<Band> bands = new ArrayList<>();
    double half = StrictMath.pow(10, 0.05);
    for (int n = LOWEST; spectra > 0; n++) {
      double centre = 1000 * StrictMath.pow(10, n / 10.0);
      if (centre * half > rate / 2.0) {
        break;
      }
      if (centre >= LOWEST_HERTZ) {
        bands.add(
            new Band(centre, Decibels.ofPower(between(centre / half, centre * half) / spectra)));
      }
    }
    return bands;
  }

  /** Lines count by the share of their width that lies in the band. */
  private double between(double low, double high) {
    double line = rate / (double) length;
    double sum = 0;
    for (int k = 0; k < power.length; k++) {
      double from = Math.max(low, (k - 0.5) * line);
      double to = Math.min(high, (k + 0.5) * line);
      if (to > from) {
        sum += power[k] * (to - from) / line;
      }
    }
    return sum;
  }
}
