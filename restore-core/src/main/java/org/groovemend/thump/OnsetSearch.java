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
  private final OnsetTemplates templates;
  private final int length;
  private final double[] axis;
  private final double[] white;
  private final double[] matched;
  private final double[] held;
  private final double[] p;
  private final double[] q;
  private final double[] weights = new double[3];
  private final double[][] score;
  private double[] drop = new double[0];
  private long lowest;
  private int count;

  OnsetSearch(ThumpGeometry g, OnsetTemplates templates, int channels) {
    this.g = g;
    this.model = new MusicModel(channels);
    this.templates = templates;
    this.length = templates.longest() * HOP;
    int tried = g.block() / HOP;
    int span = g.block() + length + 2 * ORDER + 2 * OnsetTemplates.HALF + HOP;
    axis = new double[span];
    white = new double[span + ORDER];
    matched = new double[span];
    held = new double[tried + templates.longest()];
    p = new double[tried];
    q = new double[tried];
    score = new double[templates.size()][tried];
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
    int apart = apart();
    int margin = ORDER + OnsetTemplates.HALF;
    lowest = Math.max(Math.floorDiv(begin + margin, HOP) + 1, from / HOP - apart);
    long highest = Math.min((begin + valid - length / 3) / HOP, to / HOP + apart + 1);
    count = (int) Math.max(0, highest - lowest);
    if (drop.length < count) {
      drop = new double[count];
    }
    Arrays.fill(drop, 0, count, 0);
    if (count > 0) {
      for (long b = lowest * HOP / g.block(); b * g.block() < highest * HOP; b++) {
        judge(low, begin, valid, b);
      }
    }
    return strongest(from, to);
  }

  /**
   * Seeks anew after some of the sound has been taken out; only what depends on it is judged again.
   *
   * @param changed first instant and end of each range that has changed
   * @param from as before or later
   * @param to as before or earlier
   */
  List<Onset> seekAgain(
      double[][] low, long begin, int valid, List<long[]> changed, long from, long to) {
    long first = Math.max(lowest, from / HOP - apart());
    long end = Math.min(lowest + count, to / HOP + apart() + 1);
    for (long b = first * HOP / g.block(); b * g.block() < end * HOP; b++) {
      long middle = b * g.block() + g.block() / 2;
      for (long[] range : changed) {
        if (range[0] < middle + around() && range[1] > middle - around()) {
          judge(low, begin, valid, b);
          break;
        }
      }
    }
    return strongest(from, to);
  }

  private int apart() {
    return g.instants(0.15) / HOP;
  }

  /** Instants before and after the middle of a block to which its model is fitted. */
  private int around() {
    return 2 * g.block();
  }

  private List<Onset> strongest(long from, long to) {
    int apart = apart();
    List<Onset> onsets = new ArrayList<>();
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

  private void judge(double[][] x, long begin, int valid, long block) {
    long first = Math.max(lowest, block * g.block() / HOP);
    long end = Math.min(lowest + count, (block + 1) * g.block() / HOP);
    int at = (int) (first - lowest);
    int tried = (int) (end - first);
    Arrays.fill(drop, at, at + tried, 0);
    int middle = (int) (block * g.block() + g.block() / 2 - begin);
    int lo = Math.max(0, middle - around());
    int hi = Math.min(valid, middle + around());
    if (!model.fit(x, lo, hi, hi, hi, true)) {
      return;
    }
    for (double[] s : score) {
      Arrays.fill(s, 0, tried, 0);
    }
    int wanted = tried + templates.longest();
    int lead = ORDER + OnsetTemplates.HALF;
    int start = (int) (first * HOP - begin) - lead;
    int n = lead + wanted * HOP + OnsetTemplates.HALF;
    int stop = Math.min(n, valid - start);
    for (int k = 0; k < x.length; k++) {
      if (!model.active(k)) {
        continue;
      }
      model.project(x, k, start, start + stop, axis, 0);
      model.whiten(k, axis, 0, stop, white);
      Arrays.fill(white, stop, n + ORDER, 0);
      model.match(k, white, ORDER, n, matched);
      templates.hold(matched, lead, wanted, held);
      for (int s = 0; s < score.length; s++) {
        templates.score(s, model.power(k), held, tried, p, q, weights, score[s]);
      }
    }
    for (double[] s : score) {
      for (int i = 0; i < tried; i++) {
        drop[at + i] = Math.max(drop[at + i], s[i]);
      }
    }
  }
}
