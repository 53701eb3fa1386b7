package org.groovemend.surfacenoise;

import java.util.Arrays;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;
import org.groovemend.stage.SegmentWindow;
import org.groovemend.stage.SignalStage;

/**
 * Treats segments with two frame lengths and takes, around each line of each short frame, what the
 * one leaves or the other, whichever is expected to be nearer to the music. {@link LeastRisk} has
 * the rule.
 */
final class NoiseWorker implements SignalStage.Worker {

  private final NoiseParameters parameters;
  private final FrameGrid grid;
  private final double[] window;
  private final RealFft fft;
  private final LongFrames longFrames;
  private final SuppressionPass pass;
  private final LeastRisk choice;
  private final double[] chosen;

  NoiseWorker(NoiseParameters parameters, SideNoise profile, NoiseFrames frames) {
    this.parameters = parameters;
    this.grid = frames.shortBlocks().grid();
    this.window = WindowShape.SQRT_HANN.periodic(grid.length());
    this.fft = new RealFft(grid.length());
    int longest = frames.segmentation().segmentFrames() + 2 * frames.margin();
    this.longFrames = new LongFrames(parameters, profile, frames.longBlocks(), grid, longest);
    SideNoise forShort = profile.atFrameLength(grid.length());
    this.pass =
        new SuppressionPass(
            parameters,
            parameters.shortPriorSmoothing(),
            forShort,
            frames.shortBlocks(),
            window,
            fft);
    this.choice = new LeastRisk(forShort, grid);
    this.chosen = new double[grid.length()];
  }

  @Override
  public void treat(SegmentWindow segment, double[][] out) {
    int length = (int) (segment.segmentEnd() - segment.segmentStart());
    if (length == 0) {
      return;
    }
    if (parameters.reductionDb() == 0) {
      for (int c = 0; c < segment.channels(); c++) {
        System.arraycopy(segment.samples()[c], segment.startIndex(), out[c], 0, length);
      }
      return;
    }
    for (double[] channel : out) {
      Arrays.fill(channel, 0, length, 0.0);
    }
    long sideFirst = FrameGrid.first();
    long sideLast = grid.last(segment.sideFrames());
    long first = Math.max(sideFirst, grid.firstCovering(segment.segmentStart()));
    long last = Math.min(sideLast, grid.lastCovering(segment.segmentEnd() - 1));
    long low = Math.max(sideFirst, first - LeastRisk.REACH);
    long high = Math.min(sideLast, last + LeastRisk.REACH);
    longFrames.treat(segment, low * grid.hop(), high * grid.hop() + grid.length());
    choice.begin();
    pass.run(
        segment,
        low,
        high,
        (f, gain, divergence, level) -> {
          compare(f, gain, divergence, level);
          if (f - LeastRisk.REACH >= first) {
            emit(f - LeastRisk.REACH, segment, out);
          }
        });
    for (long f = Math.max(first, high - LeastRisk.REACH + 1); f <= last; f++) {
      emit(f, segment, out);
    }
  }

  private void compare(long frame, double[] gain, double[] divergence, double level) {
    for (int c = 0; c < choice.channels(); c++) {
      double[] left = choice.longSpectrum(c, frame);
      longFrames.load(c, frame, window, left);
      fft.forward(left);
      choice.compare(c, frame, pass.spectrum(c, frame), gain);
    }
    longFrames.freedom(frame, choice.longFreedom());
    choice.weigh(frame, divergence, level);
  }

  private void emit(long frame, SegmentWindow segment, double[][] out) {
    choice.decide(frame);
    long start = segment.segmentStart();
    for (int c = 0; c < choice.channels(); c++) {
      choice.spectrum(c, frame, chosen);
      fft.inverse(chosen);
      grid.overlapAdd(frame, chosen, window, start, segment.segmentEnd(), start, out[c]);
    }
  }
}
