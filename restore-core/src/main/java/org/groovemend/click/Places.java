package org.groovemend.click;

/**
 * The places found in one block, by number; deviations in the scale of the error about each place.
 */
final class Places {
  static final int MOST = 48;

  private final int[] start = new int[MOST];
  private final int[] end = new int[MOST];
  private final double[] explained = new double[MOST];
  private final double[] amplitude = new double[MOST];
  private final double[] scale = new double[MOST];
  private final double[] before = new double[MOST];
  private final double[] after = new double[MOST];
  private final double[] remainder = new double[MOST];
  private int count;

  void clear() {
    count = 0;
  }

  void add(int from, int to, double scaleThere, double rootOfExplained, double damage) {
    start[count] = from;
    end[count] = to;
    scale[count] = scaleThere;
    explained[count] = rootOfExplained;
    amplitude[count] = damage;
    count++;
  }

  /** What can be said once every place of the block is filled. */
  void surroundings(int i, double scaleBefore, double scaleAfter, double left) {
    before[i] = scaleBefore;
    after[i] = scaleAfter;
    remainder[i] = left;
  }

  int count() {
    return count;
  }

  int start(int i) {
    return start[i];
  }

  int end(int i) {
    return end[i];
  }

  /** Standard deviation of the error there, full scale 1.0. */
  double scale(int i) {
    return scale[i];
  }

  /** Root of the error energy explained by declaring the place unknown. */
  double explained(int i) {
    return explained[i];
  }

  /** Largest sample of the damage, with its sign, full scale 1.0. */
  double amplitude(int i) {
    return amplitude[i];
  }

  double before(int i) {
    return before[i];
  }

  double after(int i) {
    return after[i];
  }

  /** Root mean square of the error left in the place and just after it. */
  double remainder(int i) {
    return remainder[i];
  }
}
