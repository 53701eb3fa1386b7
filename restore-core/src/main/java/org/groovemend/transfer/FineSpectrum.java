package org.groovemend.transfer;

import java.util.SortedMap;
import java.util.TreeMap;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * Mean power spectrum of pieces spread evenly over a side, in the single lines of the transform: P.
 * D. Welch, 1967, with a Blackman window, whose sidelobes (58 dB and falling) let converter noise
 * be seen above loud bass. Mean of the channels.
 */
public final class FineSpectrum implements BlockMeter {

  /** Frames of a piece. */
  static final int LENGTH = 1 << 13;

  /** One piece in so many lengths: a sixth of the side. */
  private static final int EVERY = 6;

  private final int rate;
  private final double[] window = WindowShape.BLACKMAN.periodic(LENGTH);
  private final double[][] held;
  private final double[] power = new double[LENGTH / 2 + 1];
  private final double[] work = new double[LENGTH];
  private final RealFft fft = new RealFft(LENGTH);
  private final double norm;
  private long position;
  private long pieces;

  public FineSpectrum(int sampleRateHz, int channels) {
    rate = sampleRateHz;
    held = new double[channels][LENGTH];
    double square = 0;
    for (double w : window) {
      square += w * w;
    }
    // sum over all lines is the mean square
    norm = 1 / (square * LENGTH * channels);
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    for (int done = 0; done < count; ) {
      int inCycle = (int) (position % (EVERY * LENGTH));
      int n;
      if (inCycle < LENGTH) {
        n = Math.min(count - done, LENGTH - inCycle);
        for (int c = 0; c < held.length; c++) {
          System.arraycopy(samples[c], done, held[c], inCycle, n);
        }
        if (inCycle + n == LENGTH) {
          transform();
        }
      } else {
        n = Math.min(count - done, EVERY * LENGTH - inCycle);
      }
      done += n;
      position += n;
    }
  }

  private void transform() {
    for (double[] channel : held) {
      for (int i = 0; i < LENGTH; i++) {
        work[i] = window[i] * channel[i];
      }
      fft.forward(work);
      power[0] += norm * work[0] * work[0];
      power[LENGTH / 2] += norm * work[1] * work[1];
      for (int k = 1; k < LENGTH / 2; k++) {
        power[k] += 2 * norm * (work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1]);
      }
    }
    pieces++;
  }

  /**
   * Mean square by line, 0 to half the rate; a white noise of mean square 1 has 2 / {@value
   * #LENGTH} in each but the first and last.
   */
  double[] lines() {
    double[] mean = power.clone();
    for (int k = 0; k < mean.length; k++) {
      mean[k] /= Math.max(1, pieces);
    }
    return mean;
  }

  /**
   * Level in third octaves (base ten, IEC 61260-1) from 50 Hz on that lie wholly below half the
   * rate, dB re a constant 1.0, by centre; empty if the side was too short.
   */
  public SortedMap<Double, Double> thirdOctaves() {
    SortedMap<Double, Double> bands = new TreeMap<>();
    double[] mean = lines();
    for (int n = -13; pieces > 0; n++) {
      double centre = 1000 * StrictMath.pow(10, n / 10.0);
      double low = centre * StrictMath.pow(10, -0.05);
      double high = centre * StrictMath.pow(10, 0.05);
      if (high > rate / 2.0) {
        break;
      }
      double sum = 0;
      for (int k = (int) (low / lineHertz()); k <= high / lineHertz() + 1 && k < mean.length; k++) {
        double part =
            Math.min(high, (k + 0.5) * lineHertz()) - Math.max(low, (k - 0.5) * lineHertz());
        sum += Math.max(0, part) / lineHertz() * mean[k];
      }
      bands.put(centre, 10 * StrictMath.log10(sum));
    }
    return bands;
  }

  /** True if the side was too short for a single piece. */
  boolean isEmpty() {
    return pieces == 0;
  }

  double lineHertz() {
    return rate / (double) LENGTH;
  }

  int sampleRateHz() {
    return rate;
  }
}
