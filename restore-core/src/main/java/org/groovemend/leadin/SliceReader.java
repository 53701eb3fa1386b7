package org.groovemend.leadin;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/** Cuts the side into slices of four blocks, each with its spectrum. */
final class SliceReader {

  static final int BLOCKS = 4;
  private static final double BLOCK_SECONDS = 0.0232;

  /**
   * A block stands out, as one with a click does, if it is this much stronger than the second
   * weakest of its slice.
   */
  private static final double OUTLIER_RATIO = 2.0;

  private static final float[] NO_LINES = {};

  private final int block;
  private final double[][] pending;
  private final double[] window;
  private final double[] work;
  private final double[][] power;
  private final double[] meanSquare = new double[BLOCKS];
  private final double step;
  private final RealFft fft;
  private int filled;
  private int blocks;
  private boolean silent = true;
  private boolean withSpectra;

  SliceReader(AudioFormat format) {
    int size = 64;
    while (size * Math.sqrt(2) < BLOCK_SECONDS * format.sampleRateHz()) {
      size *= 2;
    }
    this.block = size;
    this.pending = new double[format.channels()][size];
    this.window = WindowShape.HANN.periodic(size);
    this.work = new double[size];
    this.power = new double[BLOCKS][size / 2 + 1];
    this.fft = new RealFft(size);
    this.step = Math.max(format.quantumStep(), 1e-7) * 1.5;
  }

  int sliceFrames() {
    return BLOCKS * block;
  }

  int lines() {
    return block / 2 + 1;
  }

  /**
   * Takes what the block at work still needs; returns how many frames that was.
   *
   * @param spectra false if nobody will ask for the spectrum of the slice at work, only for its
   *     level
   */
  int take(double[][] samples, int from, int to, boolean spectra) {
    withSpectra = spectra;
    int n = Math.min(to - from, block - filled);
    for (int c = 0; c < pending.length; c++) {
      System.arraycopy(samples[c], from, pending[c], filled, n);
    }
    filled += n;
    if (filled == block) {
      filled = 0;
      analyse();
      blocks++;
    }
    return n;
  }

  boolean ready() {
    return blocks == BLOCKS;
  }

  private void analyse() {
    double[] p = power[blocks];
    Arrays.fill(p, 0.0);
    double sum = 0;
    for (double[] x : pending) {
      double previous = x[0];
      for (int i = 0; i < block; i++) {
        double v = x[i];
        sum += v * v;
        silent = silent && Math.abs(v - previous) <= step;
        previous = v;
      }
      if (!withSpectra) {
        continue;
      }
      for (int i = 0; i < block; i++) {
        work[i] = x[i] * window[i];
      }
      fft.forward(work);
      p[0] += work[0] * work[0];
      p[block / 2] += work[1] * work[1];
      for (int k = 1; k < block / 2; k++) {
        p[k] += work[2 * k] * work[2 * k] + work[2 * k + 1] * work[2 * k + 1];
      }
    }
    meanSquare[blocks] = sum / (block * (double) pending.length);
  }

  /**
   * The slice that is complete; the next begins. Without spectra it has the level of its second
   * weakest block.
   */
  Slice slice() {
    Slice slice = withSpectra ? full() : bare();
    blocks = 0;
    silent = true;
    return slice;
  }

  private Slice bare() {
    Arrays.sort(meanSquare);
    return new Slice(NO_LINES, meanSquare[1], silent);
  }

  private Slice full() {
    double[] strength = new double[BLOCKS];
    for (int b = 0; b < BLOCKS; b++) {
      // from about 1 kHz on, where clicks stand out most and rumble does not hide them
      for (int k = block / 44; k < block / 2; k++) {
        strength[b] += power[b][k];
      }
    }
    double[] sorted = strength.clone();
    Arrays.sort(sorted);
    float[] line = new float[lines()];
    double square = 0;
    int kept = 0;
    for (int b = 0; b < BLOCKS; b++) {
      if (strength[b] <= OUTLIER_RATIO * sorted[1]) {
        for (int k = 0; k < line.length; k++) {
          line[k] += (float) power[b][k];
        }
        square += meanSquare[b];
        kept++;
      }
    }
    for (int k = 0; k < line.length; k++) {
      line[k] /= kept;
    }
    return new Slice(line, square / kept, silent);
  }
}
