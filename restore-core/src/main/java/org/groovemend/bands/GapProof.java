package org.groovemend.bands;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.leadin.ToneTest;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.RangeReader;

/**
 * Listens once more, line by line, into a stretch that seems to be groove alone: is it toneless?
 */
final class GapProof {

  private static final double BLOCK_SECONDS = 0.0464;
  private static final double MOST_SECONDS = 4;
  private static final int LEAST_BLOCKS = 6;

  private final RangeReader side;
  private final int size;
  private final double[] window;
  private final RealFft fft;
  private final ToneTest tones;

  GapProof(RangeReader side) {
    this.side = side;
    int n = 64;
    while (n * Math.sqrt(2) < BLOCK_SECONDS * side.format().sampleRateHz()) {
      n *= 2;
    }
    this.size = n;
    this.window = WindowShape.HANN.periodic(n);
    this.fft = new RealFft(n);
    this.tones = new ToneTest(side.format().sampleRateHz() / (double) n, n / 2 + 1);
  }

  /** Whether tones are heard; false if the stretch is too short to tell. */
  boolean tonal(long from, long to) throws IOException {
    long most = (long) (MOST_SECONDS * side.format().sampleRateHz());
    long start = Math.max(from, to - most);
    int blocks = (int) Math.max(0, (to - start) / size);
    if (blocks < LEAST_BLOCKS) {
      return false;
    }
    int channels = side.format().channels();
    double[][] x = new double[channels][size];
    double[][] power = new double[blocks][size / 2 + 1];
    double[] strength = new double[blocks];
    for (int b = 0; b < blocks; b++) {
      side.read(start + (long) b * size, size, x);
      for (double[] channel : x) {
        for (int i = 0; i < size; i++) {
          channel[i] *= window[i];
        }
        fft.forward(channel);
        for (int k = 1; k < size / 2; k++) {
          power[b][k] += channel[2 * k] * channel[2 * k] + channel[2 * k + 1] * channel[2 * k + 1];
        }
      }
      for (int k = size / 44; k < size / 2; k++) {
        strength[b] += power[b][k];
      }
    }
    double[] sorted = strength.clone();
    Arrays.sort(sorted);
    double[] mean = new double[size / 2 + 1];
    int kept = 0;
    for (int b = 0; b < blocks; b++) {
      // blocks with a click stand out
      if (strength[b] <= 2 * sorted[blocks / 3]) {
        kept++;
        for (int k = 0; k < mean.length; k++) {
          mean[k] += power[b][k];
        }
      }
    }
    return tones.tonal(mean, kept);
  }
}
