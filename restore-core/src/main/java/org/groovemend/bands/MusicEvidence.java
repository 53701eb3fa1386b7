package org.groovemend.bands;

import java.util.Arrays;

/**
 * Tells for every cell whether music is in it, by weight of evidence against the bare groove.
 *
 * <p>Of each row it is asked how far it lies above the groove noise, in its own standard
 * deviations. Groove noise gives a normal deviate there; music gives, in some rows, anything up to
 * {@value #RANGE_DB} dB. The logarithms of the two likelihoods are added up over the rows; the sum
 * of a single cell is limited, so that a click, which lasts a cell or two, never outweighs what the
 * cells beside it say. The most likely sequence of the two states follows by dynamic programming
 * (A. Viterbi, IEEE Trans. Inf. Theory 13(2), 1967; from memory), a change of state costing as much
 * as {@value #CHANGE_CELLS} cells of full evidence.
 */
final class MusicEvidence {

  private static final double RANGE_DB = 30;

  /** Few rows, as of a flute, or many, as of a drum: one is as likely as the other. */
  private static final double FEW = 0.05;

  private static final double MANY = 0.4;
  private static final double MOST = 5;
  private static final double CHANGE_CELLS = 2;

  /**
   * Cells overlap by half, and walls hear the same: rows are not as many witnesses as they seem.
   */
  private static final double INDEPENDENT = 0.7;

  private MusicEvidence() {}

  /**
   * Weight of evidence for music, natural logarithm, -{@value #MOST} to {@value #MOST}.
   *
   * @param slackDb by how much the noise as a whole may be louder than the floor says
   */
  static float[] of(CellLevels levels, GrooveFloor floor, double slackDb) {
    float[] weight = new float[levels.cells()];
    int rows = levels.rows();
    double[] base = new double[rows];
    double[] above = new double[rows];
    double[] sorted = new double[rows];
    for (int i = 0; i < weight.length; i++) {
      floor.at(i, base);
      int n = 0;
      for (int r = 0; r < rows; r++) {
        above[r] = levels.level(r, i) - base[r];
        if (levels.above(r, 280)) {
          sorted[n++] = above[r];
        }
      }
      // the quieter rows tell how loud the noise is just now
      Arrays.sort(sorted, 0, n);
      double common = n == 0 ? 0 : sorted[n / 3];
      common = Math.max(-slackDb, Math.min(slackDb, common));
      double few = 0;
      double many = 0;
      for (int r = 0; r < rows; r++) {
        double sigma = floor.spread(r);
        double z = Math.max(0, (above[r] - common) / sigma);
        // density of a normal deviate that is folded to 0 below: only excess counts
        double noise = StrictMath.exp(-0.5 * Math.min(z * z, 1000)) / 2.5066;
        double ratio = sigma / RANGE_DB / noise;
        few += StrictMath.log(1 - FEW + FEW * ratio);
        many += StrictMath.log(1 - MANY + MANY * ratio);
      }
      few *= INDEPENDENT;
      many *= INDEPENDENT;
      double more = Math.max(few, many);
      double sum = more + StrictMath.log(0.5 + 0.5 * StrictMath.exp(Math.min(few, many) - more));
      weight[i] = (float) Math.max(-MOST, Math.min(MOST, sum));
      if (levels.silent(i)) {
        weight[i] = (float) -MOST;
      }
    }
    return weight;
  }

  /** The most likely states: true where there is music. */
  static boolean[] states(float[] weight) {
    int n = weight.length;
    double change = CHANGE_CELLS * MOST;
    boolean[] fromOther = new boolean[2 * n];
    double quiet = 0;
    double music = 0;
    for (int i = 0; i < n; i++) {
      boolean toQuiet = music - change > quiet;
      boolean toMusic = quiet - change > music;
      double q = toQuiet ? music - change : quiet;
      double m = (toMusic ? quiet - change : music) + weight[i];
      fromOther[2 * i] = toQuiet;
      fromOther[2 * i + 1] = toMusic;
      quiet = q;
      music = m;
    }
    boolean[] states = new boolean[n];
    boolean now = music > quiet;
    for (int i = n - 1; i >= 0; i--) {
      states[i] = now;
      if (fromOther[2 * i + (now ? 1 : 0)]) {
        now = !now;
      }
    }
    return states;
  }
}
