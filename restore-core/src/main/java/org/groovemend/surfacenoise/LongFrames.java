package org.groovemend.surfacenoise;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.SegmentWindow;

/**
 * The side as the long frames alone would leave it, over the stretch that a segment needs, with the
 * part of its expected error that the short frames cannot see for themselves.
 */
final class LongFrames {

  private final FrameGrid grid;
  private final FrameGrid shortGrid;
  private final double[] window;
  private final RealFft fft;
  private final SuppressionPass pass;
  private final LocalNoise noise;
  private final double[][] treated;
  private final double[][] freedom;
  private long start;
  private long firstFrame;
  private long lastFrame;

  LongFrames(
      NoiseParameters parameters,
      SideNoise profile,
      RecursionBlocks blocks,
      FrameGrid shortGrid,
      int longest) {
    this.grid = blocks.grid();
    this.shortGrid = shortGrid;
    this.window = WindowShape.SQRT_HANN.periodic(grid.length());
    this.fft = new RealFft(grid.length());
    this.pass =
        new SuppressionPass(
            parameters, parameters.longPriorSmoothing(), profile, blocks, window, fft);
    this.noise = new LocalNoise(profile, grid);
    this.treated = new double[profile.channels()][longest];
    this.freedom = new double[longest / grid.hop() + 2 * FrameGrid.OVERLAP][shortGrid.bins()];
  }

  /** Treats samples {@code from} to {@code to}, exclusive, of the side; those outside it are 0. */
  void treat(SegmentWindow segment, long from, long to) {
    start = from;
    for (double[] channel : treated) {
      Arrays.fill(channel, 0, (int) (to - from), 0.0);
    }
    firstFrame = Math.max(FrameGrid.first(), grid.firstCovering(from));
    lastFrame = Math.min(grid.last(segment.sideFrames()), grid.lastCovering(to - 1));
    long sideEnd = Math.min(to, segment.sideFrames());
    pass.run(
        segment,
        firstFrame,
        lastFrame,
        (f, gain, divergence, level) -> {
          noise.moveTo(f);
          gather(divergence, level, freedom[(int) (f - firstFrame)]);
          for (int c = 0; c < treated.length; c++) {
            double[] spectrum = pass.spectrum(c, f);
            Spectra.scale(spectrum, gain);
            fft.inverse(spectrum);
            grid.overlapAdd(f, spectrum, window, Math.max(0, start), sideEnd, start, treated[c]);
          }
        });
  }

  /** Fills a short frame, windowed, with what the long ones left of it. */
  void load(int channel, long frame, double[] shortWindow, double[] into) {
    int at = (int) (frame * shortGrid.hop() - start);
    double[] x = treated[channel];
    for (int i = 0; i < into.length; i++) {
      into[i] = shortWindow[i] * x[at + i];
    }
  }

  /**
   * Expected share of the groove noise in what was kept, as noise power of the short frames' lines,
   * at the middle of a short frame.
   */
  void freedom(long frame, double[] into) {
    double at =
        (frame * shortGrid.hop() + shortGrid.length() / 2 - grid.length() / 2)
            / (double) grid.hop();
    double inside = Math.max(firstFrame, Math.min(lastFrame, at));
    long low = (long) Math.floor(inside);
    double t = inside - low;
    double[] a = freedom[(int) (low - firstFrame)];
    double[] b = freedom[(int) (Math.min(low + 1, lastFrame) - firstFrame)];
    for (int k = 0; k < into.length; k++) {
      into[k] = a[k] + t * (b[k] - a[k]);
    }
  }

  /** Means over the lines that make one line of a short frame. */
  private void gather(double[] divergence, double level, double[] into) {
    int ratio = grid.length() / shortGrid.length();
    double[] power = noise.summed();
    double scale = level / ratio; // power of a line goes as the length of the frame
    for (int k = 0; k < into.length; k++) {
      int low = Math.max(0, k * ratio - ratio / 2);
      int high = Math.min(divergence.length, k * ratio + ratio / 2);
      double sum = 0;
      for (int j = low; j < high; j++) {
        sum += power[j] * divergence[j];
      }
      into[k] = scale * sum / (high - low);
    }
  }
}
