package org.groovemend.click;

/**
 * The click room's interpolation for other rooms: fills one gap with the samples of least residual
 * energy under an AR model of its surroundings. One instance per thread.
 */
public final class GapFill {
  private final ClickInterpolator interpolator;
  private boolean[] none = new boolean[0];

  /**
   * @param rate sampling rate in Hz
   * @param longestMilliseconds longest gap, 0.1 to 20
   */
  public GapFill(int rate, double longestMilliseconds) {
    ClickParameters d = ClickParameters.defaults();
    ClickParameters p =
        new ClickParameters(
            d.expectedFalseAlarmsPerMinute(),
            longestMilliseconds,
            d.detectionOrderAt44100Hz(),
            d.repairOrder(),
            d.repairRounds(),
            d.quietestRepairDbfs());
    interpolator = new ClickInterpolator(ClickGeometry.of(p, rate), p.repairRounds());
  }

  /** Longest fill, and the least length of the array that receives it. */
  public int longestGap() {
    return interpolator.longestGap();
  }

  /** Order of the model. */
  public int order() {
    return interpolator.order();
  }

  /**
   * Fills from {@code start} on, to {@code end} or as far after it as the damage is seen to reach.
   *
   * @param signal with first guesses in the gap
   * @param length samples of the signal that may be read
   * @param out receives the fill
   * @return samples filled; 0 if no model could be fitted
   */
  public int fill(double[] signal, int length, int start, int end, double[] out) {
    if (none.length < length) {
      none = new boolean[length];
    }
    return interpolator.fill(signal, none, start, end, length, 0, length, out);
  }

  /** Expected mean square error of the last fill. */
  public double meanSquareError() {
    return interpolator.meanSquareError();
  }
}
