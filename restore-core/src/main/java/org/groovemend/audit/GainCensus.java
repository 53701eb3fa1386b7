package org.groovemend.audit;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.measure.Decibels;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.signal.window.WindowShape;

/**
 * How much each third octave is lowered when it is soft and when it is loud: counts by level and
 * gain, so that memory does not grow. What lowers soft sound more than loud is noise reduction;
 * what lowers loud sound more limits or compresses.
 */
final class GainCensus {
  private static final double SECONDS = 0.046;
  private static final double LOWEST_HERTZ = 100;
  private static final int LEVELS = 60;
  private static final double LEVEL_STEP_DB = 2;
  private static final double LOWEST_DB = -120;
  private static final int GAINS = 200;
  private static final double GAIN_STEP_DB = 0.25;
  private static final double LOWEST_GAIN_DB = -40;
  private static final double SOFT = 0.3;
  private static final double LOUD = 0.1;
  private static final int LEAST_FRAMES = 40;

  private final int rate;
  private final int size;
  private final RealFft fft;
  private final double[] window;
  private final double[] x;
  private final double[] y;
  private final int[] edges;
  private final double[] centres;
  private final long[][][] counts;

  GainCensus(int rate) {
    this.rate = rate;
    int wanted = 64;
    while (wanted * Math.sqrt(2) < SECONDS * rate) {
      wanted *= 2;
    }
    size = wanted;
    fft = new RealFft(size);
    window = WindowShape.HANN.periodic(size);
    x = new double[size];
    y = new double[size];
    List<Integer> e = new ArrayList<>();
    List<Double> c = new ArrayList<>();
    for (int i = 0; ; i++) {
      double centre = 1000 * StrictMath.pow(2, (i - 10) / 3.0);
      if (centre * 1.13 > 0.45 * rate) {
        break;
      }
      if (centre >= LOWEST_HERTZ) {
        if (e.isEmpty()) {
          e.add((int) Math.ceil(centre / StrictMath.pow(2, 1 / 6.0) * size / rate));
        }
        e.add(
            Math.max(
                e.get(e.size() - 1) + 1,
                (int) Math.ceil(centre * StrictMath.pow(2, 1 / 6.0) * size / rate)));
        c.add(centre);
      }
    }
    edges = e.stream().mapToInt(Integer::intValue).toArray();
    centres = c.stream().mapToDouble(Double::doubleValue).toArray();
    counts = new long[centres.length][LEVELS][GAINS];
  }

  int size() {
    return size;
  }

  int rate() {
    return rate;
  }

  /** One frame of {@link #size()} samples of the derivative and what was expected. */
  void add(double[] derivative, double[] expected, int offset) {
    for (int i = 0; i < size; i++) {
      x[i] = window[i] * expected[offset + i];
      y[i] = window[i] * derivative[offset + i];
    }
    fft.forward(x);
    fft.forward(y);
    double scale = 8.0 / (3.0 * size * size) * 2;
    for (int b = 0; b < centres.length; b++) {
      double px = 0;
      double py = 0;
      for (int k = edges[b]; k < edges[b + 1]; k++) {
        px += x[2 * k] * x[2 * k] + x[2 * k + 1] * x[2 * k + 1];
        py += y[2 * k] * y[2 * k] + y[2 * k + 1] * y[2 * k + 1];
      }
      double level = Decibels.ofPower(px * scale + 1e-30);
      if (level < LOWEST_DB) {
        continue;
      }
      double gain = Decibels.ofPower((py + 1e-40) / (px + 1e-40));
      int l = (int) Math.min(LEVELS - 1, (level - LOWEST_DB) / LEVEL_STEP_DB);
      int g = (int) Math.floor((gain - LOWEST_GAIN_DB) / GAIN_STEP_DB);
      counts[b][l][Math.max(0, Math.min(GAINS - 1, g))]++;
    }
  }

  List<SoftLoud> bands() {
    List<SoftLoud> bands = new ArrayList<>();
    for (int b = 0; b < centres.length; b++) {
      long total = 0;
      for (long[] level : counts[b]) {
        for (long n : level) {
          total += n;
        }
      }
      if (total >= LEAST_FRAMES) {
        bands.add(
            new SoftLoud(
                centres[b],
                median(counts[b], 0, SOFT * total),
                median(counts[b], (1 - LOUD) * total, total),
                total));
      }
    }
    return bands;
  }

  /** Median gain of the frames of which so many are softer, up to so many. */
  private static double median(long[][] byLevel, double from, double to) {
    double[] sum = new double[GAINS];
    double before = 0;
    double all = 0;
    for (long[] level : byLevel) {
      long here = 0;
      for (long n : level) {
        here += n;
      }
      // a level that lies partly within counts by its share
      double share =
          here == 0 ? 0 : Math.max(0, Math.min(to, before + here) - Math.max(from, before)) / here;
      for (int g = 0; g < GAINS; g++) {
        sum[g] += share * level[g];
        all += share * level[g];
      }
      before += here;
    }
    double passed = 0;
    for (int g = 0; g < GAINS; g++) {
      if (passed + sum[g] >= all / 2 && sum[g] > 0) {
        return LOWEST_GAIN_DB + GAIN_STEP_DB * (g + (all / 2 - passed) / sum[g]);
      }
      passed += sum[g];
    }
    return 0;
  }
}
