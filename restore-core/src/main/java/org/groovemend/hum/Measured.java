package org.groovemend.hum;

import java.io.IOException;
import java.util.List;
import org.groovemend.signal.window.WindowShape;

/** All lines of one family over the side, measured along a phase track. */
final class Measured {
  /** Share of the full window's weight that a clipped one at the side's ends must have. */
  private static final double LEAST_WEIGHT = 0.4;

  private static final int CHUNK = 32;

  private Measured() {}

  /**
   * Reads the side once.
   *
   * @param track phase at knots every {@code hop} low-rate samples; hop as time unit of the track
   * @param already models to be taken out first, their tracks in low-rate samples
   * @return by channel and line; null for a silent line
   */
  static LineSeries[][] of(
      LowRate low, PhaseTrack track, int lines, int hop, List<HumModel> already)
      throws IOException {
    int knots = track.cycles().length;
    int channels = low.channels();
    LineSeries[][] series = new LineSeries[channels][lines];
    for (LineSeries[] channel : series) {
      for (int k = 0; k < lines; k++) {
        channel[k] = LineSeries.empty(knots);
      }
    }
    int longest = 2 * hop;
    double[] hann = WindowShape.HANN.periodic(longest);
    double[] shape = new double[longest];
    double[] cycles = new double[longest];
    LineFit fit = new LineFit(lines, longest);
    double[][] x = new double[channels][(CHUNK + 1) * hop];
    for (int first = 0; first < knots; first += CHUNK) {
      int last = Math.min(knots, first + CHUNK);
      long begin = (first - 1L) * hop;
      int count = (last - first + 1) * hop;
      low.read(begin, count, x);
      for (HumModel model : already) {
        Oscillators synthesis = new Oscillators(model, channels);
        synthesis.subtract(x, 0, begin, count);
      }
      for (int j = first; j < last; j++) {
        long start = (j - 1L) * hop;
        int from = (int) Math.max(0, -start);
        int to = (int) Math.min(longest, low.length() - start);
        double weight = 0;
        for (int i = from; i < to; i++) {
          shape[i - from] = hann[i];
          cycles[i - from] = track.at(start + i);
          weight += hann[i];
        }
        if (weight < LEAST_WEIGHT * hop) {
          continue;
        }
        for (int c = 0; c < channels; c++) {
          if (silenced(x[c], (int) (start - begin) + from, to - from)) {
            continue;
          }
          fit.fit(x[c], (int) (start - begin) + from, cycles, shape, to - from, low.rate());
          for (int k = 0; k < lines; k++) {
            series[c][k].re()[j] = fit.a[k];
            series[c][k].im()[j] = -fit.b[k];
            series[c][k].floor()[j] = fit.floor[k];
            series[c][k].least()[j] = fit.least[k];
            series[c][k].most()[j] = fit.most[k];
          }
        }
      }
    }
    for (LineSeries[] channel : series) {
      for (int k = 0; k < lines; k++) {
        channel[k] = channel[k].steadied();
      }
    }
    return series;
  }

  /** Digital silence in more than a tenth of the window: an amplitude there would be too small. */
  private static boolean silenced(double[] x, int from, int count) {
    int zeros = 0;
    for (int i = from; i < from + count; i++) {
      zeros += x[i] == 0 ? 1 : 0;
    }
    return 10 * zeros > count;
  }
}
