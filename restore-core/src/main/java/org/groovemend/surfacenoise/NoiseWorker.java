package org.groovemend.surfacenoise;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.SignalStage;

/** Treats segments, block of frames by block of frames. */
final class NoiseWorker implements SignalStage.Worker {

  private final NoiseParameters parameters;
  private final RecursionBlocks blocks;
  private final FrameGrid grid;
  private final FrameRing ring;
  private final PriorEstimate priors;
  private final double[] window;
  private final RealFft fft;
  private final double[] gain;
  private final double floor;

  NoiseWorker(NoiseParameters parameters, GrooveNoise grooveNoise, RecursionBlocks blocks) {
    this.parameters = parameters;
    this.blocks = blocks;
    this.grid = blocks.grid();
    this.window = WindowShape.SQRT_HANN.periodic(grid.length());
    this.fft = new RealFft(grid.length());
    this.ring = new FrameRing(parameters, grooveNoise, blocks, window, fft);
    this.priors = new PriorEstimate(parameters, blocks, ring);
    this.gain = new double[grid.bins()];
    this.floor = parameters.gainFloor();
  }

  @Override
  public void treat(SegmentWindow segment, double[][] out) {
    int length = (int) (segment.segmentEnd() - segment.segmentStart());
    for (double[] channel : out) {
      Arrays.fill(channel, 0, length, 0.0);
    }
    if (length == 0) {
      return;
    }
    if (parameters.reductionDb() == 0) {
      for (int c = 0; c < segment.channels(); c++) {
        System.arraycopy(segment.samples()[c], segment.startIndex(), out[c], 0, length);
      }
      return;
    }
    long first = Math.floorDiv(segment.segmentStart(), (long) grid.hop()) - FrameGrid.OVERLAP + 1;
    long last = Math.floorDiv(segment.segmentEnd() - 1, (long) grid.hop());
    ring.start(segment);
    for (long b = blocks.block(first); b <= blocks.block(last); b++) {
      long from = blocks.start(b);
      long to = Math.min(from + blocks.length() - 1, ring.lastFrame());
      ring.require(from - blocks.runIn(), to + blocks.runIn());
      priors.estimate(from, to, Math.min(to, last));
      for (long f = Math.max(from, first); f <= Math.min(to, last); f++) {
        priors.gains((int) (f - from), ring.ratio(f), ring.inverseLevel(f), floor, gain);
        for (int c = 0; c < segment.channels(); c++) {
          double[] spectrum = ring.spectrum(c, f);
          Spectra.scale(spectrum, gain);
          fft.inverse(spectrum);
          overlapAdd(spectrum, f * grid.hop() - segment.segmentStart(), out[c], length);
        }
      }
    }
  }

  /** The squares of the window sum to 2 at every sample. */
  private void overlapAdd(double[] frame, long at, double[] out, int length) {
    int from = (int) Math.max(0, -at);
    int to = (int) Math.min(frame.length, length - at);
    for (int i = from; i < to; i++) {
      out[(int) at + i] += 0.5 * window[i] * frame[i];
    }
  }
}
