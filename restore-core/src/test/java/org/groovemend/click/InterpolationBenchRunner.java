package org.groovemend.click;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Bench tool: fills gaps at known places of undamaged files with the ladder and with the published
 * method. Arguments: output, gaps a file and length, files of 16 or 24 bits. Writes a line for each
 * file, kind of damage and length. The baseline is one channel's autoregression in three rounds:
 * order 256 and 2048 samples each side up to 5 ms, order 1024 and 4096 beyond (Janssen, Veldhuis
 * and Vries 1986).
 */
final class InterpolationBenchRunner {
  private static final double[] MILLISECONDS = {0.1, 0.5, 1, 5, 10, 20, 40, 80};

  private InterpolationBenchRunner() {}

  private static double db(double ratio) {
    return 10 * Math.log10(Math.max(ratio, 1e-30));
  }

  static ClickGeometry geometry(int rate, int gap) {
    ClickGeometry g = ClickGeometry.of(ClickParameters.defaults(), rate);
    int longContext = gap > rate / 100 ? 2 * g.longContext() : g.longContext();
    return new ClickGeometry(
        g.hop(),
        g.order(),
        g.repairOrder(),
        g.repairContext(),
        longContext,
        Math.max(gap, g.longest()),
        g.longestCore(),
        g.local());
  }

  public static void main(String[] args) throws Exception {
    int count = Integer.parseInt(args[1]);
    try (PrintStream out = new PrintStream(args[0], "UTF-8")) {
      out.println(
          "file,rate,channels,hurt,ms,baseline_db,ladder_db,actual_re_stated_db,seconds_a_gap");
      for (int i = 2; i < args.length; i++) {
        BenchWav wav = BenchWav.read(Path.of(args[i]));
        String name = Path.of(args[i]).getFileName().toString().replace(".wav", "");
        for (double ms : MILLISECONDS) {
          int rate = wav.format().sampleRateHz();
          int m = Math.max(1, (int) Math.round(ms * rate / 1000));
          ClickGeometry g = geometry(rate, m);
          ClickInterpolator ladder = new ClickInterpolator(g, 3);
          Rung baseline = ms <= 5 ? new Rung(256, 2048, m) : new Rung(1024, 4096, m);
          for (int hurt = 1; hurt <= wav.samples().length; hurt++) {
            measure(out, name, wav, ms, m, hurt, count, ladder, baseline);
          }
        }
      }
    }
  }

  private static void measure(
      PrintStream csv,
      String name,
      BenchWav wav,
      double ms,
      int m,
      int hurt,
      int count,
      ClickInterpolator ladder,
      Rung baseline) {
    double[] x = wav.samples()[0].clone();
    double[] y = wav.samples().length > 1 ? wav.samples()[1].clone() : null;
    boolean[] gaps = new boolean[x.length];
    boolean[] otherGaps = new boolean[x.length];
    double[] out = new double[ladder.longestGap()];
    double[] plain = new double[m];
    SplittableRandom random = new SplittableRandom(7);
    double energy = 0;
    double ladderError = 0;
    double baselineError = 0;
    double stated = 0;
    long nanos = 0;
    for (int k = 0, tries = 0; k < count && tries < 1000; tries++) {
      int at = random.nextInt(4096, x.length - m - 4096);
      double around = 0;
      for (int n = Math.max(0, at - 1000); n < Math.min(x.length, at + m + 1000); n++) {
        around += x[n] * x[n];
      }
      if (around / (m + 2000) < 1e-6) {
        continue; // rests say nothing
      }
      k++;
      double[] was = java.util.Arrays.copyOfRange(x, at, at + m);
      double[] other = y == null ? null : java.util.Arrays.copyOfRange(y, at, at + m);
      java.util.Arrays.fill(x, at, at + m, 0);
      java.util.Arrays.fill(gaps, at, at + m, true);
      if (hurt == 2) {
        java.util.Arrays.fill(y, at, at + m, 0);
        java.util.Arrays.fill(otherGaps, at, at + m, true);
      }
      java.util.Arrays.fill(plain, 0);
      baseline.fill(x, gaps, null, null, at, at + m, 0, x.length, 3, plain);
      long t = System.nanoTime();
      int filled = ladder.fill(x, gaps, y, otherGaps, at, at + m, at + m, 0, x.length, out);
      nanos += System.nanoTime() - t;
      for (int i = 0; i < m; i++) {
        double v = filled > i ? out[i] : 0;
        energy += was[i] * was[i];
        ladderError += (v - was[i]) * (v - was[i]);
        baselineError += (plain[i] - was[i]) * (plain[i] - was[i]);
      }
      stated += ladder.meanSquareError() * m;
      System.arraycopy(was, 0, x, at, m);
      java.util.Arrays.fill(gaps, at, at + m, false);
      if (hurt == 2) {
        System.arraycopy(other, 0, y, at, m);
        java.util.Arrays.fill(otherGaps, at, at + m, false);
      }
    }
    csv.printf(
        Locale.ROOT,
        "%s,%d,%d,%d,%s,%.2f,%.2f,%.2f,%.6f%n",
        name,
        wav.format().sampleRateHz(),
        wav.samples().length,
        hurt,
        Double.toString(ms),
        db(energy / Math.max(baselineError, 1e-30)),
        db(energy / Math.max(ladderError, 1e-30)),
        db(ladderError / Math.max(stated, 1e-30)),
        nanos * 1e-9 / count);
  }
}
