package org.groovemend.measure;

import java.util.Arrays;
import org.groovemend.audio.AudioFormat;
import org.groovemend.signal.robust.Median;

/**
 * Measures a {@link GrooveEnergy} over a stretch of bare groove that comes by in order.
 *
 * <p>Medians over windows, so that a pop that is left does not count; spread is 1.4826 times the
 * median of the magnitudes of the deviations, the standard deviation of a normal distribution.
 */
public final class GrooveEnergyMeter {

  private static final double NORMAL = 1.4826;

  private final double fromHertz;
  private final CellEnergies cells;
  private final double[] before;
  private final double[] after;
  private int count;

  /**
   * @param frames length of the stretch; memory depends on it
   */
  public GrooveEnergyMeter(AudioFormat format, double fromHertz, long frames) {
    this.fromHertz = fromHertz;
    cells = new CellEnergies(format, fromHertz, this::add);
    before = new double[(int) (frames / cells.cellFrames()) + 1];
    after = new double[before.length];
  }

  private void add(double b, double a, boolean repaired) {
    if (!Double.isNaN(b)) {
      before[count] = b;
      after[count++] = a;
    }
  }

  /**
   * The next frames.
   *
   * @param before {@code [channel][frame]} as it was
   * @param after the same in the clean copy
   * @param repaired true where a sample lies in a repaired place
   */
  public void accept(double[][] before, double[][] after, boolean[][] repaired, int count) {
    cells.accept(before, after, repaired, count);
  }

  /** What was measured; {@link GrooveEnergy#unknown} if there was less than one decay's length. */
  public GrooveEnergy finish() {
    if (count < OnsetsAndDecays.DECAY_CELLS) {
      return GrooveEnergy.unknown(fromHertz);
    }
    double[] decays = windows(before, OnsetsAndDecays.DECAY_CELLS);
    double middle = median(decays);
    return new GrooveEnergy(
        fromHertz,
        middle,
        median(windows(after, OnsetsAndDecays.DECAY_CELLS)),
        spread(windows(before, OnsetsAndDecays.ONSET_CELLS)),
        spread(decays));
  }

  /** Means of windows that overlap by half. */
  private double[] windows(double[] v, int length) {
    double[] means = new double[(count - length) / (length / 2) + 1];
    for (int w = 0; w < means.length; w++) {
      int from = w * (length / 2);
      means[w] = Arrays.stream(v, from, from + length).sum() / length;
    }
    return means;
  }

  private static double median(double[] v) {
    return Median.of(v.clone(), 0, v.length);
  }

  private static double spread(double[] v) {
    double middle = median(v);
    double[] away = new double[v.length];
    Arrays.setAll(away, i -> Math.abs(v[i] - middle));
    return middle > 0 ? NORMAL * median(away) / middle : 0;
  }
}
