package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;
import org.groovemend.stage.RangeReader;

/** Chooses for each channel the plainest model that leaves no more than a richer one. */
final class ModelChoice {
  private static final int MOST_WINDOWS = 240;
  private static final double SECONDS = 0.1;

  /** A filter must leave less than this share of what a gain leaves: 3 dB. */
  private static final double BETTER = 0.7;

  /**
   * What rounding with dither leaves is 0.5 steps (variance 1/12 + 2/12); less is not to be had.
   */
  private static final double ROUNDING_STEPS = 0.55;

  private static final int SHORT_WINDOWS = 20;
  private static final double MORE = 2;

  /**
   * Where loud sound is rare, fewer than a hundredth of the windows show it. Ours, without a
   * source; set on one case of the bench, where 7 windows of 1,000 did.
   */
  private static final double FEW = 0.004;

  /** More than this share of the sound's change is no converter's error but a repair: -46 dB. */
  private static final double RIPPLE = 0.005;

  private final AlignedSide original;
  private final RangeReader derivative;
  private final double step;

  /**
   * @param step smallest step of the derivative's words; 0 for floats
   */
  ModelChoice(AlignedSide original, RangeReader derivative, double step) {
    this.original = original;
    this.derivative = derivative;
    this.step = step;
  }

  Model[] run() throws IOException {
    Mix[] mixes = Mix.of(original, derivative);
    Model[] models = new Model[mixes.length];
    FilterFit fit = new FilterFit(original, derivative);
    for (int c = 0; c < mixes.length; c++) {
      Model flat = flat(mixes[c], c);
      models[c] = flat;
      if (!flat.exact() && flat.floor() > ROUNDING_STEPS * step && fit.windows() > 0) {
        Model filtered = fit.fit(mixes[c], c);
        if (filtered.floor() < BETTER * flat.floor()) {
          models[c] = filtered;
        }
      }
    }
    for (int c = 0; c < models.length; c++) {
      if (!models[c].exact()) {
        models[c] = models[c].withFollows(follows(models, c));
      }
    }
    return models;
  }

  /**
   * Converters and filters are never quite those that were modelled: what they leave follows the
   * sound. Told from short windows in which more is left than the floor; none if they are few, for
   * then it is repairs.
   */
  private double follows(Model[] models, int channel) throws IOException {
    int length = SHORT_WINDOWS * shortWindow(derivative.format().sampleRateHz());
    long[] places = Windows.spread(original.stretches(), length, MOST_WINDOWS);
    Expected expected = new Expected(original, models, length);
    double[][] e = new double[models.length][length];
    double[][] y = new double[models.length][length];
    double[] shares = new double[places.length * SHORT_WINDOWS];
    int more = 0;
    int n = length / SHORT_WINDOWS;
    double[] left = new double[n];
    for (long place : places) {
      derivative.read(place, length, y);
      expected.read(place, e, 0);
      for (int w = 0; w < SHORT_WINDOWS; w++) {
        double change = 0;
        for (int i = w * n; i < (w + 1) * n; i++) {
          double step = e[channel][i] - e[channel][Math.max(0, i - 1)];
          change += step * step;
          left[i - w * n] = Math.abs(y[channel][i] - e[channel][i]);
        }
        double rest = RobustScale.NORMAL * Median.of(left, 0, n);
        if (rest > MORE * models[channel].floor() && rest < RIPPLE * Math.sqrt(change / n)) {
          shares[more++] = rest / Math.sqrt(change / n);
        }
      }
    }
    return more < FEW * shares.length ? 0 : Median.of(shares, 0, more);
  }

  /** Frames of the windows within which sound swells: 5 ms. */
  static int shortWindow(int rate) {
    return Math.max(16, rate / 200);
  }

  /** A gain alone; exactly one if that fits as well. */
  private Model flat(Mix mix, int channel) throws IOException {
    double one = Math.signum(mix.gain());
    double[] atOne = floors(mix, one, channel);
    double[] asFound = floors(mix, mix.gain(), channel);
    boolean plain =
        mix.kind() != Mix.Kind.BOTH
            && one != 0
            && Model.middle(atOne) <= 1.02 * Model.middle(asFound);
    double[] floors = plain ? atOne : asFound;
    double floor = Model.middle(floors);
    return new Model(
        mix,
        plain ? one : mix.gain(),
        null,
        floor,
        Model.steady(floors),
        0,
        plain && floor == 0,
        null);
  }

  /** Robust standard deviations of what single windows leave, sorted. */
  private double[] floors(Mix mix, double gain, int channel) throws IOException {
    int length = (int) Math.round(SECONDS * derivative.format().sampleRateHz());
    long[] places = Windows.spread(original.stretches(), length, MOST_WINDOWS);
    double[][] x = new double[original.format().channels()][length];
    double[][] y = new double[derivative.format().channels()][length];
    double[] source = new double[length];
    double[] floors = new double[places.length];
    int told = 0;
    for (long place : places) {
      original.read(place, length, x);
      derivative.read(place, length, y);
      mix.take(x, length, source);
      boolean sound = false;
      for (int i = 0; i < length; i++) {
        sound |= source[i] != 0;
        source[i] = Math.abs(y[channel][i] - gain * source[i]);
      }
      if (sound) {
        floors[told++] = 1.4826 * Median.of(source.clone(), 0, length);
      }
    }
    double[] sorted = Arrays.copyOf(floors, told);
    Arrays.sort(sorted);
    return sorted;
  }
}
