package org.groovemend.speed;

import java.util.List;
import java.util.Locale;
import org.groovemend.resample.ConstantRatio;
import org.groovemend.resample.PositionMap;

/**
 * What is to be done to the time of a side: a factor, drift, wow. A value that can be written down,
 * and that a deliverable can be made from at any time; the clean copy itself keeps its frames.
 *
 * <p>Where u is time in the copy and t time in the transfer, {@code du/dt = (1 + wow(t)) / (factor
 * * drift(t))}, both from 0 on.
 *
 * @param factor by which the side is to run faster; above 1 raises its pitch
 * @param drift factors at some moments, in order of time; between them a monotone cubic in the
 *     logarithm, outside them that of the nearest. Empty for none
 * @param wow to be taken out, or null
 */
public record TimeMap(double factor, List<DriftNode> drift, Wow wow) {

  /** Least and most that a speed may be changed by. */
  public static final double LEAST_FACTOR = 0.25;

  public static final double MOST_FACTOR = 4;

  public TimeMap {
    drift = List.copyOf(drift);
    requireFactor(factor);
    for (int i = 0; i < drift.size(); i++) {
      requireFactor(factor * drift.get(i).factor());
      if (i > 0 && !(drift.get(i).seconds() > drift.get(i - 1).seconds())) {
        throw new IllegalArgumentException(
            "the moments of drift are not in order of time: "
                + drift.get(i - 1).seconds()
                + " s, then "
                + drift.get(i).seconds()
                + " s");
      }
    }
  }

  /** Only a factor. */
  public static TimeMap of(double factor) {
    return new TimeMap(factor, List.of(), null);
  }

  static void requireFactor(double factor) {
    if (!(factor >= LEAST_FACTOR && factor <= MOST_FACTOR)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "a speed factor of %s is outside %s to %s",
              factor,
              LEAST_FACTOR,
              MOST_FACTOR));
    }
  }

  /** True if time stays as it is. */
  public boolean neutral() {
    return factor == 1 && drift.isEmpty() && wow == null;
  }

  /**
   * Where the frames of the copy lie in the transfer.
   *
   * @param inputHz rate of the transfer
   * @param inputFrames its length
   * @param outputHz rate of the copy
   */
  public PositionMap positions(int inputHz, long inputFrames, int outputHz) {
    if (drift.isEmpty() && wow == null) {
      return ConstantRatio.of(inputHz, outputHz, factor);
    }
    return new ChangingPositions(new Rate(this), inputHz, inputFrames, outputHz);
  }

  /** Progress of the copy's time with that of the transfer, worked out once. */
  static final class Rate {
    private final double slowness;
    private final MonotoneCubic drift;
    private final Wow wow;

    Rate(TimeMap map) {
      slowness = 1 / map.factor;
      wow = map.wow;
      int n = map.drift.size();
      double[] x = new double[n];
      double[] y = new double[n];
      for (int i = 0; i < n; i++) {
        x[i] = map.drift.get(i).seconds();
        y[i] = StrictMath.log(map.drift.get(i).factor());
      }
      drift = n == 0 ? null : new MonotoneCubic(x, y);
    }

    /** du/dt. */
    double at(double seconds) {
      double rate = slowness;
      if (drift != null) {
        rate *= StrictMath.exp(-drift.value(seconds));
      }
      return wow == null ? rate : rate * (1 + wow.deviation(seconds));
    }
  }
}
