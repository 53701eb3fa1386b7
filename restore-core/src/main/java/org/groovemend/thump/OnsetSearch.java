package org.groovemend.thump;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Finds places where a ring of one of a few shapes, taken out, makes the low band much easier to
 * predict: a matched filter after whitening. One instance per thread.
 */
final class OnsetSearch {
  private static final int ORDER = ThumpGeometry.ORDER;
  private static final int HOP = ThumpGeometry.HOP;

  /** Drop from which a place is looked at closely; white noise seldom exceeds 30. */
  private static final double LEAST_DROP = 45;

  private final ThumpGeometry g;
  private final MusicModel model;
  private final int length;
  private final double[][] cos;
  private final double[][] sin;
  private final double[][] whiteCos;
  private final double[][] whiteSin;
  private double[] axis = new double[0];
  private double[] white = new double[0];
  private double[] drop = new double[0];
  private double[][] score = new double[0][0];

  OnsetSearch(ThumpGeometry g, int channels) {
    this.g = g;
    this.model = new MusicModel(channels);
    this.length = g.instants(0.3);
    List<ThumpShape> shapes = new ArrayList<>();
    for (double start : new double[] {40, 75, 130}) {
      for (double decay : new double[] {0.03, 0.08}) {
        shapes.add(new ThumpShape(start, start / 4, 0.12, decay, 0));
        shapes.add(new ThumpShape(start, start * 0.8, 0.1, decay, 0));
      }
    }
    cos = new double[shapes.size()][ORDER + length];
    sin = new double[shapes.size()][ORDER + length];
    whiteCos = new double[shapes.size()][ORDER + length];
    whiteSin = new double[shapes.size()][ORDER + length];
    double spacing = 1 / g.perSecond();
    for (int s = 0; s < shapes.size(); s++) {
      shapes.get(s).write(-ORDER * spacing, spacing, 0.001, ORDER + length, cos[s], sin[s]);
    }
  }

  /**
   * Onsets at instants from {@code from} on, before {@code to}, that no stronger one within 0.15 s
   * outdoes.
   *
   * @param low the low band, one array per channel
   * @param begin instant of index 0
   * @param valid valid samples
   */
  List<Onset> seek(double[][] low, long begin, int valid, long from, long to) {
    int apart = g.instants(0.15) / HOP;
    long lowest = Math.max(Math.floorDiv(begin + ORDER, HOP) + 1, from / HOP - apart);
    long highest = Math.min((begin + valid - length / 3) / HOP, to / HOP + apart + 1);
    List<Onset> onsets = new ArrayList<>();
    int count = (int) (highest - lowest);
    if (count <= 0) {
      return onsets;
    }
    drop = new double[count];
    int block = g.block();
    for (long b = lowest * HOP / block; b * block < highest * HOP; b++) {
      long first = Math.max(lowest, b * block / HOP);
      long end = Math.min(highest, (b + 1) * block / HOP);
      judge(low, begin, valid, b * block, first, end, (int) (first - lowest));
    }
    for (int i = 0; i < count; i++) {
      long instant = (lowest + i) * HOP;
      if (drop[i] < LEAST_DROP || instant < from || instant >= to) {
        continue;
      }
      boolean most = true;
      for (int j = Math.max(0, i - apart); j <= Math.min(count - 1, i + apart) && most; j++) {
        most = drop[j] < drop[i] || (drop[j] == drop[i] && j >= i);
      }
      if (most) {
        onsets.add(new Onset(instant, drop[i]));
      }
    }
    return onsets;
  }

  private void judge(
      double[][] x, long begin, int valid, long block, long first, long end, int at) {
    int around = 2 * g.block();
    int middle = (int) (block + g.block() / 2 - begin);
    int lo = Math.max(0, middle - around);
    int hi = Math.min(valid, middle + around);
    if (!model.fit(x, lo, hi, hi, hi, true)) {
      return;
    }
    int tried = (int) (end - first);
    if (score.length == 0 || score[0].length < tried) {
      score = new double[cos.length][tried];
    }
    for (double[] s : score) {
      Arrays.fill(s, 0, tried, 0);
    }
    int start = (int) (first * HOP - begin);
    int stop = Math.min(valid, (int) (end * HOP - begin) + length);
    if (axis.length < valid) {
      axis = new double[valid];
      white = new double[valid];
    }
    for (int k = 0; k < x.length; k++) {
      if (!model.active(k)) {
        continue;
      }
      model.project(x, k, start - ORDER, stop, axis);
      model.whiten(k, axis, start - ORDER, stop, white);
      for (int s = 0; s < cos.length; s++) {
        model.whiten(k, cos[s], 0, ORDER + length, whiteCos[s]);
        model.whiten(k, sin[s], 0, ORDER + length, whiteSin[s]);
        correlate(whiteCos[s], whiteSin[s], start, stop, tried, score[s]);
      }
    }
    for (int i = 0; i < tried; i++) {
      for (double[] s : score) {
        drop[at + i] = Math.max(drop[at + i], s[i]);
      }
    }
  }

  private void correlate(double[] c, double[] s, int start, int stop, int tried, double[] into) {
    double cc = 0;
    double ss = 0;
    double cs = 0;
    for (int n = ORDER; n < ORDER + length; n++) {
      cc += c[n] * c[n];
      ss += s[n] * s[n];
      cs += c[n] * s[n];
    }
    double determinant = cc * ss - cs * cs;
    if (!(determinant > 1e-12 * cc * ss)) {
      return;
    }
    for (int i = 0; i < tried; i++) {
      int at = start + i * HOP;
      int m = Math.min(length, stop - at);
      double p = 0;
      double q = 0;
      for (int n = 0; n < m; n++) {
        double w = white[at + n];
        p += w * c[ORDER + n];
        q += w * s[ORDER + n];
      }
      into[i] += (ss * p * p - 2 * cs * p * q + cc * q * q) / determinant;
    }
  }
}
