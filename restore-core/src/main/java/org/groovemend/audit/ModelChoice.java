package org.groovemend.audit;

import java.io.IOException;
import java.util.Arrays;
import org.groovemend.signal.robust.Median;
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
    return models;
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
