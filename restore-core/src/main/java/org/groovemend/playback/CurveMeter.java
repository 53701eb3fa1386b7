package org.groovemend.playback;

/** Measures what goes into the curve stage and what comes out, block by block. */
public final class CurveMeter {
  private double peakBefore;
  private double peakAfter;
  private double removedPeak;
  private double removedPower;
  private long samples;
  private long over;

  /** Takes the next block. */
  public void accept(double[][] in, double[][] out, int count) {
    for (int c = 0; c < in.length; c++) {
      double sum = 0;
      for (int i = 0; i < count; i++) {
        double d = in[c][i] - out[c][i];
        sum += d * d;
        double after = Math.abs(out[c][i]);
        removedPeak = Math.max(removedPeak, Math.abs(d));
        peakBefore = Math.max(peakBefore, Math.abs(in[c][i]));
        peakAfter = Math.max(peakAfter, after);
        if (after > 1) {
          over++;
        }
      }
      removedPower += sum;
      samples += count;
    }
  }

  /** What was measured; at least one frame was given. */
  public CurveTaken finish() {
    return new CurveTaken(
        20 * StrictMath.log10(peakBefore),
        20 * StrictMath.log10(peakAfter),
        over,
        10 * StrictMath.log10(removedPower / samples),
        20 * StrictMath.log10(removedPeak));
  }
}
