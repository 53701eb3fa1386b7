package org.groovemend.plays;

/**
 * Powers of plays and what each two share, by channel and third octave, summed over frames: once as
 * they are, so that loud frames count most, and once each frame by the inverse of its power, so
 * that soft frames, in which noise is plain, count most.
 */
final class Powers {
  private final int plays;
  private final int pairs;
  private final int bands;
  private final double[] sums;
  private final int channels;
  private long frames;

  Powers(int plays, int channels, int bands) {
    this.plays = plays;
    this.channels = channels;
    this.bands = bands;
    pairs = plays * (plays + 1) / 2;
    sums = new double[channels * bands * (2 * pairs + 1)];
  }

  int plays() {
    return plays;
  }

  int channels() {
    return channels;
  }

  int bands() {
    return bands;
  }

  /** Frames, all channels together counted once. */
  long frames() {
    return frames;
  }

  private int base(int channel, int band) {
    return (channel * bands + band) * (2 * pairs + 1);
  }

  private int pair(int i, int j) {
    int low = Math.min(i, j);
    int high = Math.max(i, j);
    return low * plays - low * (low - 1) / 2 + high - low;
  }

  /** Adds a frame of a channel: spectra by play as {@code RealFft} packs them. */
  void add(int channel, double[][] spectra, ThirdOctaves octaves, double norm) {
    double[] one = new double[pairs];
    for (int b = 0; b < bands; b++) {
      int from = octaves.firstBin(b);
      int to = octaves.firstBin(b + 1);
      double all = 0;
      for (int i = 0; i < plays; i++) {
        for (int j = i; j < plays; j++) {
          double sum = 0;
          double[] x = spectra[i];
          double[] y = spectra[j];
          for (int k = from; k < to; k++) {
            sum += x[2 * k] * y[2 * k] + x[2 * k + 1] * y[2 * k + 1];
          }
          one[pair(i, j)] = sum * norm;
          all += i == j ? sum * norm : 0;
        }
      }
      if (!(all > 0)) {
        continue;
      }
      int at = base(channel, b);
      for (int p = 0; p < pairs; p++) {
        sums[at + p] += one[p];
        sums[at + pairs + p] += one[p] / all;
      }
      sums[at + 2 * pairs] += 1 / all;
    }
    if (channel == 0) {
      frames++;
    }
  }

  void add(Powers other) {
    for (int i = 0; i < sums.length; i++) {
      sums[i] += other.sums[i];
    }
    frames += other.frames;
  }

  /** Mean over frames, mean square in the band; what two plays share if {@code i != j}. */
  double loud(int channel, int band, int i, int j) {
    return frames == 0 ? 0 : sums[base(channel, band) + pair(i, j)] / frames;
  }

  /** The same, frames weighted by the inverse of their power. */
  double soft(int channel, int band, int i, int j) {
    int at = base(channel, band);
    double weight = sums[at + 2 * pairs];
    return weight > 0 ? sums[at + pairs + pair(i, j)] / weight : 0;
  }
}
