package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;

/** What the derivative would hold if only the models had acted. Not for several threads at once. */
final class Expected {
  private final AlignedSide original;
  private final Model[] models;
  private final int block;
  private final int half;
  private final int size;
  private final RealFft fft;
  private final double[][] gains;
  private final double[][] x;
  private final double[] source;

  /**
   * @param block frames that {@link #read} gives
   */
  Expected(AlignedSide original, Model[] models, int block) {
    this.original = original;
    this.models = models;
    this.block = block;
    int reach = 0;
    for (Model model : models) {
      reach = model.taps() == null ? reach : model.taps().length / 2;
    }
    half = reach;
    int wanted = 2;
    while (wanted < block + 2 * half) {
      wanted *= 2;
    }
    size = wanted;
    fft = half > 0 ? new RealFft(size) : null;
    gains = new double[models.length][];
    for (int c = 0; c < models.length; c++) {
      if (models[c].taps() != null) {
        gains[c] = new double[size];
        for (int i = -half; i <= half; i++) {
          gains[c][(i + size) % size] += models[c].taps()[i + half];
        }
        fft.forward(gains[c]);
      }
    }
    x = new double[original.format().channels()][size];
    source = new double[size];
  }

  /** Fills {@code into[channel][offset...offset + block)}. */
  void read(long first, double[][] into, int offset) throws IOException {
    original.read(first - half, block + 2 * half, x);
    for (int c = 0; c < models.length; c++) {
      Arrays.fill(source, 0);
      models[c].mix().take(x, block + 2 * half, source);
      double[] g = gains[c];
      if (g == null) {
        double gain = models[c].gain();
        for (int i = 0; i < block; i++) {
          into[c][offset + i] = gain * source[half + i];
        }
        continue;
      }
      fft.forward(source);
      source[0] *= g[0];
      source[1] *= g[1];
      for (int k = 2; k < size; k += 2) {
        double re = source[k] * g[k] - source[k + 1] * g[k + 1];
        source[k + 1] = source[k] * g[k + 1] + source[k + 1] * g[k];
        source[k] = re;
      }
      fft.inverse(source);
      System.arraycopy(source, half, into[c], offset, block);
    }
  }
}
