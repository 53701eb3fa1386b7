package org.groovemend.surfacenoise;

import java.util.Arrays;

/**
 * The groove noise about one frame of a side, power times unsteadiness of each line. It moves in
 * steps of a thousandth of the way, so that the same frame finds the same noise whoever asks.
 */
final class LocalNoise {
  private static final int STEPS = 1024;

  private final SideNoise side;
  private final FrameGrid grid;
  private final double[][] start;
  private final double[][] logRatio;
  private final double[][] inverse;
  private final double[] summed;
  private final double logOfStart;
  private final double logOfEnd;
  private int step;

  LocalNoise(SideNoise side, FrameGrid grid) {
    this.side = side;
    this.grid = grid;
    int channels = side.channels();
    this.start = new double[channels][];
    this.logRatio = side.runOut() == null ? null : new double[channels][grid.bins()];
    this.inverse = new double[channels][grid.bins()];
    this.summed = new double[grid.bins()];
    double most = SideNoise.MOST_DB * StrictMath.log(10) / 10;
    for (int c = 0; c < channels; c++) {
      start[c] = side.leadIn().takenFor(c);
      if (logRatio != null) {
        double[] end = side.runOut().takenFor(c);
        for (int k = 0; k < end.length; k++) {
          double ratio = StrictMath.log(end[k] / start[c][k]);
          logRatio[c][k] = Math.max(-most, Math.min(most, ratio));
        }
      }
    }
    this.logOfStart = logTurn(side.leadIn());
    this.logOfEnd = side.runOut() == null ? 0 : logTurn(side.runOut());
    compute(0);
  }

  /** Goes to the middle of a frame. */
  void moveTo(long frame) {
    if (logRatio != null) {
      double middle = (double) frame * grid.hop() + grid.length() / 2.0;
      int wanted = (int) Math.round(STEPS * side.way(middle));
      if (wanted != step) {
        compute(wanted);
      }
    }
  }

  private double logTurn(GrooveNoise noise) {
    if (side.swing() == null) {
      return 0;
    }
    double rate = noise.sampleRateHz();
    return StrictMath.log(
        side.swing().meanPower(noise.startFrame() / rate, noise.endFrame() / rate));
  }

  /**
   * Power of the noise in a frame as the disc turns, over that of the spectra, which are means of
   * the stretches that they were taken from.
   */
  double turn(long frame) {
    if (side.swing() == null) {
      return 1;
    }
    double middle = (double) frame * grid.hop() + grid.length() / 2.0;
    double spectra = logOfStart + side.way(middle) * (logOfEnd - logOfStart);
    return StrictMath.exp(side.swing().logAt(middle / side.leadIn().sampleRateHz()) - spectra);
  }

  private void compute(int wanted) {
    step = wanted;
    double way = wanted / (double) STEPS;
    Arrays.fill(summed, 0.0);
    for (int c = 0; c < start.length; c++) {
      for (int k = 0; k < summed.length; k++) {
        double power = start[c][k];
        if (wanted > 0) {
          power *= StrictMath.exp(way * logRatio[c][k]);
        }
        summed[k] += power;
        inverse[c][k] = 1 / power;
      }
    }
  }

  /** [line] One over the noise power of a channel. */
  double[] inverse(int channel) {
    return inverse[channel];
  }

  /** [line] Noise power of all channels together. */
  double[] summed() {
    return summed;
  }
}
