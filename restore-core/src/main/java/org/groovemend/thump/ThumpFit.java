package org.groovemend.thump;

/**
 * Fits a {@link ThumpShape} by generalised least squares: the music's own AR models whiten, cosine
 * and sine parts per axis are linear, the five values of the shape are found from a grid by
 * Gauss-Newton steps with damping. One instance per thread.
 */
final class ThumpFit {
  private static final int VALUES = ThumpShape.VALUES;

  /** How far the onset may be from the reference, in instants. */
  private static final double FURTHEST = 16;

  /** Time constant of the soft beginning while the onset is sought, in seconds. */
  static final double RISE = 0.0007;

  private final double spacing;
  private final PlaceData place;
  private final ThumpGrid grid;
  private final double[] padded;
  private final double[] matched;
  private final double[] scores;
  private final ShapeStep step;
  private RingBasis basis;
  private RingBasis trial;
  private ThumpShape shape;
  private double drop;
  private double energy;
  private double enough;

  ThumpFit(ThumpGeometry g, ThumpGrid grid, MusicModel model, int axes) {
    this.spacing = 1 / g.perSecond();
    this.grid = grid;
    place = new PlaceData(g, model, axes);
    padded = new double[place.length() + ThumpGeometry.ORDER];
    matched = new double[place.length()];
    scores = new double[grid.size()];
    step = new ShapeStep(place, spacing, FURTHEST);
    basis = new RingBasis(place, spacing);
    trial = new RingBasis(place, spacing);
  }

  ThumpShape shape() {
    return shape;
  }

  /** Drop in whitened energy. */
  double drop() {
    return drop;
  }

  /** Whitened energy before. */
  double energy() {
    return energy;
  }

  /** Values that were compared. */
  int count() {
    return place.count();
  }

  /** Cosine and sine amplitude along an axis. */
  double[] coefficients(int k) {
    return basis.amplitudes(k);
  }

  /**
   * Sets the share of the drop that a step must bring to be followed by another; 0 for accuracy.
   */
  void content(double share) {
    enough = share;
  }

  /** Takes the low band in, as {@link PlaceData#load} tells. */
  void load(double[][] x, int reference, int to) {
    place.load(x, reference, to);
    energy = place.energy();
  }

  /** Declares the instants from {@code from} to {@code to} after the reference to be unknown. */
  void forget(int from, int to) {
    place.forget(from, to);
    energy = place.energy();
  }

  /** Best shape of the grid. */
  void search() {
    java.util.Arrays.fill(scores, 0);
    for (int k = 0; k < place.axes(); k++) {
      if (place.model().active(k)) {
        System.arraycopy(place.free(k), 0, padded, 0, place.length());
        place.model().match(k, padded, 0, place.valid(), matched);
        grid.score(place.model().power(k), matched, place.valid(), scores);
      }
    }
    int best = 0;
    for (int i = 1; i < scores.length; i++) {
      best = scores[i] > scores[best] ? i : best;
    }
    shape = grid.shape(best);
    drop = basis.solve(shape, RISE);
  }

  /**
   * Improves the shape.
   *
   * @param onsetToo true if the onset is sought as well; else it is kept and the ring begins at
   *     full size
   */
  void refine(int steps, boolean onsetToo) {
    double rise = onsetToo ? RISE : 0;
    int values = onsetToo ? VALUES : VALUES - 1;
    drop = basis.solve(shape, rise);
    double damping = 0.01;
    for (int i = 0; i < steps; i++) {
      step.linearise(shape, basis, values, rise);
      boolean better = false;
      for (int tries = 0; tries < 5 && !better; tries++) {
        ThumpShape next = step.next(shape, values, damping);
        double d = trial.solve(next, rise);
        better = d > drop;
        if (better) {
          double gain = d - drop;
          take(next, d);
          damping = Math.max(1e-6, damping / 5);
          if (gain < 0.05 ? gain < 1e-4 * drop : gain < enough * drop) {
            return;
          }
        } else {
          damping *= 8;
        }
      }
      if (!better) {
        return;
      }
    }
  }

  private void take(ThumpShape next, double d) {
    RingBasis swap = basis;
    basis = trial;
    trial = swap;
    shape = next;
    drop = d;
  }

  /**
   * Looks for a better onset farther off than a step can see: a ring may begin with a small lobe
   * before the first large one.
   */
  void shift() {
    drop = basis.solve(shape, RISE);
    ThumpShape from = shape;
    for (int instants = -3; instants <= 8; instants++) {
      ThumpShape s = from.earlier(instants, spacing);
      if (Math.abs(s.onset()) <= FURTHEST) {
        double d = trial.solve(s, RISE);
        if (d > drop) {
          take(s, d);
        }
      }
    }
  }

  /** Gives both axes one waveform with two gains if that explains nearly as much. */
  void joinWaveforms() {
    basis.joinWaveforms();
  }

  /** What is left along an axis, whitened; index {@link PlaceData#REFERENCE} is the reference. */
  void remains(int k, double[] out) {
    basis.remains(k, out);
  }
}
