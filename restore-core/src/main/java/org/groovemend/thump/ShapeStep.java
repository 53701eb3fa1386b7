package org.groovemend.thump;

/**
 * The Gauss-Newton equations for the values of a {@link ThumpShape}, the amplitudes projected out
 * (variable projection, Golub and Pereyra 1973, with Kaufman's simplification). One instance per
 * thread.
 */
final class ShapeStep {
  private static final int VALUES = ThumpShape.VALUES;

  private final PlaceData place;
  private final double spacing;
  private final double furthest;
  private final double[] cos;
  private final double[] sin;
  private final double[] wave;
  private final double[][][] jacobian;
  private final double[][] normal = new double[VALUES][VALUES];
  private final double[] gradient = new double[VALUES];
  private final double[] by = new double[VALUES];
  private final double[] move = new double[VALUES];

  /**
   * @param spacing seconds from one instant to the next
   * @param furthest how far the onset may be from the reference, in instants
   */
  ShapeStep(PlaceData place, double spacing, double furthest) {
    this.place = place;
    this.spacing = spacing;
    this.furthest = furthest;
    int n = place.length();
    cos = new double[n];
    sin = new double[n];
    wave = new double[n];
    jacobian = new double[place.axes()][VALUES][n];
  }

  /**
   * Sets the equations up.
   *
   * @param basis solved for {@code shape}
   * @param values values of the shape that are sought: all, or all but the onset
   */
  void linearise(ThumpShape shape, RingBasis basis, int values, double rise) {
    for (int v = 0; v < values; v++) {
      differentiate(shape, basis, v, rise);
      gradient[v] = 0;
      for (int k = 0; k < place.axes(); k++) {
        gradient[v] += PlaceData.dot(jacobian[k][v], place.free(k));
      }
      for (int w = 0; w <= v; w++) {
        double sum = 0;
        for (int k = 0; k < place.axes(); k++) {
          sum += PlaceData.dot(jacobian[k][v], jacobian[k][w]);
        }
        normal[v][w] = sum;
        normal[w][v] = sum;
      }
    }
  }

  private void differentiate(ThumpShape shape, RingBasis basis, int v, double rise) {
    java.util.Arrays.fill(by, 0);
    by[v] = v == 4 ? 0.02 : 1e-3;
    ThumpShape near = shape.moved(by, furthest + 1);
    if (near.equals(shape)) {
      by[v] = -by[v];
      near = shape.moved(by, furthest + 1);
    }
    near.write(
        (-PlaceData.REFERENCE - near.onset()) * spacing, spacing, rise, place.valid(), cos, sin);
    for (int k = 0; k < place.axes(); k++) {
      double[] j = jacobian[k][v];
      basis.difference(cos, sin, k, wave);
      place.whiten(k, wave, j);
      double scale = 1 / by[v];
      for (int i = 0; i < j.length; i++) {
        j[i] *= scale;
      }
      basis.project(k, j);
    }
  }

  /** The shape one damped step on. */
  ThumpShape next(ThumpShape shape, int values, double damping) {
    LinearStep.solve(normal, gradient, values, damping, move);
    if (values < VALUES) {
      move[VALUES - 1] = 0;
    }
    return shape.moved(move, furthest);
  }
}
