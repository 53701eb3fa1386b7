package org.groovemend.plays;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.groovemend.chain.Progress;
import org.groovemend.stage.ArrayRanges;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;
import org.junit.jupiter.api.Test;

class MergeTest {
  private static final int RATE = 44_100;
  private static final int SECONDS = 30;
  private static final double NOISE = 0.003;

  static List<InventedDisc.Pulse> pulses(long seed, int count, double low, double high) {
    Random random = new Random(seed);
    List<InventedDisc.Pulse> all = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double height = low * Math.pow(high / low, random.nextDouble());
      all.add(
          new InventedDisc.Pulse(
              2 + (SECONDS - 5) * (i + 0.8 * random.nextDouble()) / count,
              random.nextBoolean() ? height : -height,
              (30 + 120 * random.nextDouble()) * 1e-6));
    }
    return all;
  }

  @Test
  void lowersNoiseAndTakesClicksFromTheOtherPlay() throws Exception {
    DoubleUnaryOperator a = AlignerTest.wow(1, 0, 0.0015, 1.3, 0.3);
    DoubleUnaryOperator b = AlignerTest.wow(1.003, -1.2, 0.002, 1.3, 2.0);
    InventedDisc disc = new InventedDisc(5, 1, SECONDS - 1);
    int frames = SECONDS * RATE;
    double[] ga = InventedDisc.groove(RATE, frames, a);
    double[] gb = InventedDisc.groove(RATE, frames, b);
    double[][] clean = {disc.sound(ga, 0), disc.sound(ga, 1)};
    double[][] xa = {clean[0].clone(), clean[1].clone()};
    double[][] xb = {disc.sound(gb, 0), disc.sound(gb, 1)};
    List<InventedDisc.Pulse> clicksA = pulses(1, 60, 0.02, 0.4);
    List<InventedDisc.Pulse> clicksB = pulses(2, 60, 0.02, 0.4);
    for (int c = 0; c < 2; c++) {
      InventedDisc.add(xa[c], InventedDisc.noise(10 + c, frames, NOISE));
      InventedDisc.add(xb[c], InventedDisc.noise(20 + c, frames, NOISE));
      InventedDisc.add(xa[c], ga, clicksA, 1);
      InventedDisc.add(xb[c], gb, clicksB, 1);
      for (int i = 0; i < frames; i++) xb[c][i] *= 0.8;
    }
    long t0 = System.nanoTime();
    PlaySet set = PlaySet.align(List.<RangeReader>of(InventedDisc.side(RATE, xa), InventedDisc.side(RATE, xb)), Progress.SILENT);
    long t1 = System.nanoTime();
    PlaySurvey survey = PlaySurvey.of(set, Crew.alone(), Progress.SILENT);
    long t2 = System.nanoTime();
    double[][] out = new double[2][frames];
    Merge.run(survey, Crew.alone(), (at, s, n) -> { for (int c = 0; c < 2; c++) System.arraycopy(s[c], 0, out[c], (int) at, n); }, Progress.SILENT);
    long t3 = System.nanoTime();
    System.out.printf("align %.2f survey %.2f mix %.2f%n", (t1-t0)/1e9, (t2-t1)/1e9, (t3-t2)/1e9);
    System.out.println(java.util.Arrays.toString(survey.counts()) + " places " + survey.places().size() + " gains " + set.findings().get(1).gains() + " doubt " + set.findings().get(1).doubtSamples());
    boolean[] dirty = new boolean[frames];
    for (InventedDisc.Pulse p : clicksA) mark(dirty, p, ga);
    for (InventedDisc.Pulse p : clicksB) mark(dirty, p, ga);
    int from = 2 * RATE, to = 27 * RATE;
    double before = 0, after = 0; int n = 0; double bad = 0;
    for (int c = 0; c < 2; c++) for (int i = from; i < to; i++) {
      double e = out[c][i] - clean[c][i]; double o = xa[c][i] - clean[c][i];
      if (!dirty[i]) { before += o * o; after += e * e; n++; } else bad = Math.max(bad, Math.abs(e));
    }
    System.out.printf("noise gain %.3f dB rms %.6f worst at clicks %.4f%n", 10 * Math.log10(before / after), Math.sqrt(after/n), bad);
    int replaced = count(clicksA, ga, survey, 0, out, clean), replacedB = count(clicksB, ga, survey, 1, out, clean);
    System.out.println("A " + replaced + "/" + 2*clicksA.size() + " B " + replacedB + "/" + 2*clicksB.size());
  }

  private static int count(List<InventedDisc.Pulse> clicks, double[] ga, PlaySurvey survey, int play, double[][] out, double[][] clean) {
    int good = 0;
    for (InventedDisc.Pulse p : clicks) {
      for (int c = 0; c < 2; c++) {
        int channel = c;
        int i0 = java.util.Arrays.binarySearch(ga, p.grooveSeconds());
        int at = i0 < 0 ? -i0 - 1 : i0;
        int lo = at, hi = at; for (int i = at - 60; i < at + 60; i++) if (Math.abs(p.at(ga[i])) > 3 * NOISE) { lo = Math.min(lo, i); hi = Math.max(hi, i); } int l = lo, h = hi;
        boolean ok = survey.places().stream().anyMatch(q -> q.channel() == channel && q.damages(play) && !q.everywhere() && q.damaged() == 1 << play && q.start() <= l && q.end() > h);
        if (ok) good++; else { double worst = 0; for (int i = at-10; i < at+10; i++) worst = Math.max(worst, Math.abs(out[c][i]-clean[c][i])); if (worst > 0.0) System.out.println("missed " + p + " left " + worst + " " + survey.places().stream().filter(q -> q.channel()==channel && Math.abs(q.start()-at) < 200).toList() + " at " + at); }
      }
    }
    return good;
  }

  private static void mark(boolean[] dirty, InventedDisc.Pulse p, double[] groove) {
    int i = java.util.Arrays.binarySearch(groove, p.grooveSeconds() - 10 * p.widthSeconds());
    i = i < 0 ? -i - 1 : i;
    for (; groove[i] < p.grooveSeconds() + 10 * p.widthSeconds(); i++) dirty[i] = true;
  }
}
