package org.groovemend.rumble;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;

/** Measures what goes into the stage and what comes out, block by block. */
public final class RumbleMeter {
  private final AudioFormat format;
  private final double bandHigh;
  private final Side before;
  private final Side after;
  private double removedPower;
  private double removedPeak;
  private long frames;

  public RumbleMeter(AudioFormat format, RumbleParameters parameters) {
    this.format = format;
    this.bandHigh = RumbleAnalyser.bandHigh(parameters);
    this.before = new Side(format, bandHigh);
    this.after = new Side(format, bandHigh);
  }

  /**
   * Takes the next block; any cut into blocks of the same side measures the same but for rounding.
   */
  public void accept(double[][] in, double[][] out, int count) {
    before.accept(in, count);
    after.accept(out, count);
    for (int c = 0; c < in.length; c++) {
      double sum = 0;
      for (int i = 0; i < count; i++) {
        double d = in[c][i] - out[c][i];
        sum += d * d;
        removedPeak = Math.max(removedPeak, Math.abs(d));
      }
      removedPower += sum;
    }
    frames += count;
  }

  /** After the last block; at least one frame was given. */
  public RumbleTaken finish() {
    before.bands.finish();
    after.bands.finish();
    List<RumbleTaken.Channel> channels = new ArrayList<>();
    double peakBefore = 0;
    double peakAfter = 0;
    for (int c = 0; c < format.channels(); c++) {
      channels.add(
          new RumbleTaken.Channel(
              before.sum[c] / frames,
              after.sum[c] / frames,
              20 * StrictMath.log10(before.peak[c]),
              20 * StrictMath.log10(after.peak[c])));
      peakBefore = Math.max(peakBefore, before.peak[c]);
      peakAfter = Math.max(peakAfter, after.peak[c]);
    }
    List<RumbleTaken.Band> bands = new ArrayList<>();
    for (int b = 0; b < 4; b++) {
      boolean vertical = (b & 1) == 1;
      if (!vertical || format.channels() == 2) {
        bands.add(
            new RumbleTaken.Band(
                vertical ? "vertical" : "lateral",
                b < 2 ? 0 : RumbleAnalyser.SUBSONIC_HERTZ,
                b < 2 ? RumbleAnalyser.SUBSONIC_HERTZ : bandHigh,
                before.level(b),
                after.level(b)));
      }
    }
    return new RumbleTaken(
        channels,
        bands,
        20 * StrictMath.log10(peakBefore / peakAfter),
        10 * StrictMath.log10(removedPower / ((double) frames * format.channels())),
        20 * StrictMath.log10(removedPeak));
  }

  private static final class Side {
    final double[] sum;
    final double[] peak;
    final LowBands bands;
    private final double[] first = new double[4];
    private final double[] second = new double[4];
    private long instants;

    Side(AudioFormat format, double bandHigh) {
      sum = new double[format.channels()];
      peak = new double[format.channels()];
      bands =
          new LowBands(
              format.sampleRateHz(),
              format.channels(),
              RumbleAnalyser.SUBSONIC_HERTZ,
              bandHigh,
              this::at);
    }

    private void at(double a, double b, double c, double d) {
      add(0, a);
      add(1, b);
      add(2, c);
      add(3, d);
      instants++;
    }

    private void add(int band, double value) {
      first[band] += value;
      second[band] += value * value;
    }

    void accept(double[][] x, int count) {
      for (int c = 0; c < x.length; c++) {
        double total = 0;
        double most = peak[c];
        for (int i = 0; i < count; i++) {
          total += x[c][i];
          most = Math.max(most, Math.abs(x[c][i]));
        }
        sum[c] += total;
        peak[c] = most;
      }
      bands.accept(x, count);
    }

    double level(int band) {
      double mean = first[band] / instants;
      return 10 * StrictMath.log10(Math.max(0, second[band] / instants - mean * mean));
    }
  }
}
