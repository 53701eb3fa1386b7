package org.groovemend.plays;

import java.util.List;

/**
 * How much of each play is taken, by channel, third octave and passage: the inverse of its noise,
 * summing to 1. Where a play is not there, or its band ends, it has none.
 */
final class Weights {
  /** Passages on each side that noise is averaged over. */
  private static final int REACH = 2;

  private final double[][][][] byPassage;
  private final double[][][] gain;

  private Weights(double[][][][] byPassage, double[][][] gain) {
    this.byPassage = byPassage;
    this.gain = gain;
  }

  /**
   * Works them out.
   *
   * @param passages in order
   * @param doubts standard deviation of each play's alignment by passage, seconds; the reference's
   *     0
   * @param limits highest frequency of each play, Hz
   */
  static Weights of(List<Powers> passages, double[][] doubts, double[] limits) {
    Powers all = sum(passages, 0, passages.size());
    double[][][] gain = Noises.responses(all);
    int plays = all.plays();
    double[][][][] weights = new double[passages.size()][][][];
    for (int n = 0; n < weights.length; n++) {
      Powers near = sum(passages, Math.max(0, n - REACH), Math.min(weights.length, n + REACH + 1));
      Powers told = near.frames() > 0 ? near : all;
      weights[n] = new double[plays][all.channels()][all.bands()];
      for (int c = 0; c < all.channels(); c++) {
        for (int b = 0; b < all.bands(); b++) {
          passage(told, gain, doubts, limits, n, c, b, weights[n]);
        }
      }
    }
    return new Weights(weights, gain);
  }

  private static void passage(
      Powers told,
      double[][][] gain,
      double[][] doubts,
      double[] limits,
      int n,
      int c,
      int b,
      double[][][] out) {
    int plays = told.plays();
    double sum = 0;
    for (int p = 0; p < plays; p++) {
      double noise = Noises.own(told, gain, p, c, b, true);
      double weight;
      if (p == 0) {
        weight = 1 / (noise + 1e-300);
      } else if (ThirdOctaves.centre(b) * StrictMath.pow(10, 0.05) > limits[p]) {
        weight = 0;
      } else {
        double turn = 2 * Math.PI * ThirdOctaves.centre(b) * doubts[p][n];
        double unsure = Noises.sound(told, gain, p, c, b) * Math.min(4, turn * turn);
        noise += Math.max(unsure, Noises.misfit(told, gain, p, c, b));
        weight = 1 / (noise + 1e-300);
      }
      out[p][c][b] = weight;
      sum += weight;
    }
    for (int p = 0; p < plays; p++) {
      out[p][c][b] /= sum;
    }
  }

  static Powers sum(List<Powers> passages, int from, int to) {
    Powers first = passages.get(0);
    Powers sum = new Powers(first.plays(), first.channels(), first.bands());
    for (Powers one : passages.subList(from, to)) {
      sum.add(one);
    }
    return sum;
  }

  /** Gain that brings a play to the reference's response. */
  double gain(int play, int channel, int band) {
    return gain[play][channel][band];
  }

  double[][][] gains() {
    return gain;
  }

  /** Share of a play at a passage. */
  double at(int passage, int play, int channel, int band) {
    return byPassage[passage][play][channel][band];
  }

  int passages() {
    return byPassage.length;
  }

  /** Shares by band between passages, straight in time; {@code place} counts passages. */
  void between(double place, int play, int channel, double[] byBand) {
    double x = Math.max(0, Math.min(byPassage.length - 1, place - 0.5));
    int n = (int) Math.min(x, Math.max(0, byPassage.length - 2));
    int next = Math.min(n + 1, byPassage.length - 1);
    double u = x - n;
    for (int b = 0; b < byBand.length; b++) {
      byBand[b] = (1 - u) * byPassage[n][play][channel][b] + u * byPassage[next][play][channel][b];
    }
  }
}
