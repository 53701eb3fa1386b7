package org.groovemend.measure;

import java.util.Arrays;

/**
 * Measures loudness block by block; any cut into blocks gives the same, and memory does not grow.
 *
 * <p>ITU-R BS.1770: mean square of the K-weighted channels, -0.691 + 10 log10 of their weighted
 * sum; integrated over blocks of 400 ms every 100 ms that pass the gates of -70 LKFS and 10 LU
 * under the mean of those. Range after EBU Tech 3342: 3 s every 100 ms, gates of -70 LUFS and 20 LU
 * under, from the 10th to the 95th percentile. Blocks are counted in bins of {@value #BIN} LU with
 * their exact energy, so only a block within one bin of a gate may fall on its other side. The end
 * that fills no 100 ms is left out.
 *
 * <p>The loudest 400 ms and 3 s are looked for every 10 ms: a tone that lasts just so long is then
 * met within 5 ms, 0.06 dB of 400 ms, as cases 13 and 14 of EBU Tech 3341 want it.
 */
public final class LoudnessMeter {
  private static final double OFFSET = -0.691;
  private static final double ABSOLUTE_GATE = -70;
  private static final double INTEGRATED_GATE = -10;
  private static final double RANGE_GATE = -20;
  private static final int MOMENTARY = 4;
  private static final int SHORT_TERM = 30;
  private static final int PARTS = 10;
  private static final double BIN = 0.01;
  private static final double MOST = 40;

  private final double[] weights;
  private final KWeighting[] filters;
  private final int step;
  private final double[] recent = new double[SHORT_TERM];
  private final Census momentary;
  private final Census shortTerm;
  private final double[] recentParts = new double[PARTS * SHORT_TERM];
  private double mostMomentary;
  private double mostShortTerm;
  private double sum;
  private double partSum;
  private int inStep;
  private int partEnd;
  private int partOfStep;
  private long parts;
  private long steps;

  /** Every channel counts alike, as mono, left and right do. */
  public LoudnessMeter(int sampleRateHz, int channels) {
    this(sampleRateHz, ones(channels));
  }

  /**
   * With channels of other places.
   *
   * @param weights 1 for left, right and centre, 1.41 for surrounds
   */
  public LoudnessMeter(int sampleRateHz, double[] weights) {
    this(sampleRateHz, weights, new Census(), new Census());
  }

  private LoudnessMeter(int sampleRateHz, double[] weights, Census momentary, Census shortTerm) {
    this.momentary = momentary;
    this.shortTerm = shortTerm;
    this.weights = weights.clone();
    this.filters = new KWeighting[weights.length];
    for (int c = 0; c < filters.length; c++) {
      filters[c] = new KWeighting(sampleRateHz);
    }
    this.step = (int) Math.max(PARTS, Math.round(sampleRateHz / 10.0));
    this.partEnd = partEnd(1);
  }

  /**
   * A meter that goes on where this one stands, with another piece of the same set: its {@link
   * #finish} tells of all of them together. No block spans two pieces.
   */
  public LoudnessMeter next(int sampleRateHz, int channels) {
    LoudnessMeter next = new LoudnessMeter(sampleRateHz, ones(channels), momentary, shortTerm);
    next.mostMomentary = mostMomentary;
    next.mostShortTerm = mostShortTerm;
    return next;
  }

  private static double[] ones(int channels) {
    double[] ones = new double[channels];
    Arrays.fill(ones, 1);
    return ones;
  }

  /**
   * Takes the next block.
   *
   * @param x {@code [channel][0...count)}, full scale 1.0
   */
  public void accept(double[][] x, int count) {
    for (int i = 0; i < count; i++) {
      for (int c = 0; c < filters.length; c++) {
        double y = filters[c].next(x[c][i]);
        double power = weights[c] * y * y;
        sum += power;
        partSum += power;
      }
      if (++inStep == partEnd) {
        endPart();
        if (inStep == step) {
          endStep();
        }
      }
    }
  }

  /** Parts of a step differ by a sample at most; any ten in a row are as long as a step. */
  private int partEnd(int part) {
    return (int) ((long) step * part / PARTS);
  }

  private void endPart() {
    recentParts[(int) (parts % recentParts.length)] = partSum;
    partSum = 0;
    parts++;
    partOfStep = (partOfStep + 1) % PARTS;
    partEnd = partEnd(partOfStep + 1);
    if (parts >= PARTS * MOMENTARY) {
      mostMomentary = Math.max(mostMomentary, meanOfParts(MOMENTARY));
    }
    if (parts >= PARTS * SHORT_TERM) {
      mostShortTerm = Math.max(mostShortTerm, meanOfParts(SHORT_TERM));
    }
  }

  private double meanOfParts(int count) {
    double total = 0;
    int at = (int) (parts % recentParts.length);
    for (int k = 0; k < PARTS * count; k++) {
      at = at == 0 ? recentParts.length - 1 : at - 1;
      total += recentParts[at];
    }
    return total / ((double) count * step);
  }

  private void endStep() {
    recent[(int) (steps % SHORT_TERM)] = sum / step;
    sum = 0;
    inStep = 0;
    steps++;
    if (steps >= MOMENTARY) {
      momentary.add(mean(MOMENTARY));
    }
    if (steps >= SHORT_TERM) {
      shortTerm.add(mean(SHORT_TERM));
    }
  }

  private double mean(int count) {
    double total = 0;
    for (int k = 1; k <= count; k++) {
      total += recent[(int) ((steps - k) % SHORT_TERM)];
    }
    return total / count;
  }

  /** What was measured so far. */
  public Loudness finish() {
    return new Loudness(
        loudness(momentary.gatedMean(INTEGRATED_GATE)),
        loudness(mostMomentary),
        loudness(mostShortTerm),
        shortTerm.range(RANGE_GATE));
  }

  private static double loudness(double power) {
    return OFFSET + Decibels.ofPower(power);
  }

  /** Blocks by their loudness. */
  private static final class Census {
    private final long[] counts = new long[(int) Math.round((MOST - ABSOLUTE_GATE) / BIN)];
    private final double[] powers = new double[counts.length];

    void add(double power) {
      double at = loudness(power) - ABSOLUTE_GATE;
      if (at > 0) {
        int bin = (int) Math.min(counts.length - 1, at / BIN);
        counts[bin]++;
        powers[bin] += power;
      }
    }

    /** Power of the blocks above a gate that lies so far from the mean of all. */
    double gatedMean(double gate) {
      return meanFrom(gateBin(gate));
    }

    private int gateBin(double gate) {
      double mean = meanFrom(0);
      return mean == 0
          ? counts.length
          : (int) Math.max(0, Math.ceil((loudness(mean) + gate - ABSOLUTE_GATE) / BIN));
    }

    private double meanFrom(int bin) {
      double power = 0;
      long count = 0;
      for (int k = bin; k < counts.length; k++) {
        power += powers[k];
        count += counts[k];
      }
      return count == 0 ? 0 : power / count;
    }

    double range(double gate) {
      int from = gateBin(gate);
      long count = 0;
      for (int k = from; k < counts.length; k++) {
        count += counts[k];
      }
      return count == 0 ? 0 : BIN * (percentile(from, count, 0.95) - percentile(from, count, 0.1));
    }

    private int percentile(int from, long count, double share) {
      long rank = Math.round(share * (count - 1));
      long seen = 0;
      for (int k = from; k < counts.length; k++) {
        seen += counts[k];
        if (seen > rank) {
          return k;
        }
      }
      throw new IllegalStateException("a percentile of nothing");
    }
  }
}
