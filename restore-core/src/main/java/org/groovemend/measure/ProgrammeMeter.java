package org.groovemend.measure;

import java.util.List;

/** Loudness and true peak in one pass, block by block; any cut into blocks gives the same. */
public final class ProgrammeMeter {

  private final LoudnessMeter loudness;
  private final TruePeakMeter peaks;

  public ProgrammeMeter(int sampleRateHz, int channels) {
    loudness = new LoudnessMeter(sampleRateHz, channels);
    peaks = new TruePeakMeter(channels);
  }

  /**
   * Takes the next block.
   *
   * @param x {@code [channel][0...count)}, full scale 1.0
   */
  public void accept(double[][] x, int count) {
    loudness.accept(x, count);
    peaks.accept(x, count);
  }

  /** Ends the measurement. */
  public Programme finish() {
    List<Double> byChannel = peaks.finish();
    double most = Double.NEGATIVE_INFINITY;
    for (double peak : byChannel) {
      most = Math.max(most, peak);
    }
    return new Programme(loudness.finish(), most, byChannel);
  }
}
