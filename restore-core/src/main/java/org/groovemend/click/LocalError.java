package org.groovemend.click;

import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.RobustScale;

/**
 * How a pulse would stand out of the prediction error at a place.
 *
 * <p>Size of a pulse: 10 log10(E / s^2), with E the energy of the pulse passed through the
 * prediction-error filter of the 46 ms about it (the detection model's order and window) and s the
 * robust standard deviation of the prediction error of the 12 ms about it. That is the ratio on
 * which any test for a pulse of known shape depends (D. O. North 1943, matched filter). One
 * instance per thread.
 */
final class LocalError {
  private final int order;
  private final int size;
  private final int reach;
  private final Autocorrelation autocorrelation;
  private final double[] window;
  private final double[] r;
  private final double[] a;
  private final double[] e;
  private final double[] work;
  private double deviation;

  LocalError(ClickGeometry g) {
    order = g.order();
    size = g.window();
    reach = g.hop() / 4;
    autocorrelation = new Autocorrelation(size, order);
    window = new double[size];
    MidpointHann.fill(window, size);
    r = new double[order + 1];
    a = new double[order + 1];
    e = new double[size];
    work = new double[size];
  }

  /**
   * Fits the model to the surroundings of index {@code at}, which must be half a window from either
   * end.
   *
   * @param floor least standard deviation, full scale 1.0
   * @return false if there is no sound to predict
   */
  boolean fit(double[] x, int at, double floor) {
    int from = at - size / 2;
    autocorrelation.compute(x, from, size, window, r);
    if (!(r[0] > floor * floor * size * 1e-2) || !(r[0] > 1e-200)) {
      return false;
    }
    r[0] *= 1 + 1e-7;
    LevinsonDurbin.solve(r, order, a, null);
    int middle = size / 2;
    double[] piece = work;
    System.arraycopy(x, from, piece, 0, size);
    PredictionFilter.residual(a, order, piece, middle - reach, middle + reach, e);
    deviation = Math.max(floor, RobustScale.aboutZero(e, middle - reach, middle + reach, work));
    return true;
  }

  /** Energy of the pulse's prediction error over the variance of the error there. */
  double ratio(double[] pulse) {
    double energy = 0;
    for (int n = 0; n < pulse.length + order; n++) {
      double sum = 0;
      for (int k = Math.max(0, n - pulse.length + 1); k <= Math.min(order, n); k++) {
        sum += a[k] * pulse[n - k];
      }
      energy += sum * sum;
    }
    return energy / (deviation * deviation);
  }
}
