package org.groovemend.transfer;

import java.util.ArrayList;
import java.util.List;

/**
 * Looks for music that comes again after exactly one turn of a disc: a stuck groove, or a stylus
 * that has jumped back.
 *
 * <p>Half the sum of the channels (or the difference, if that is louder), about 100 Hz to 1 kHz at
 * some {@value #RATE} Hz, is compared in blocks of {@value #BLOCK_SECONDS} s, half overlapped, with
 * what lies one turn at 33 1/3 and 45 rpm, each 1.5 % up and down, and at 76 to 82 rpm before. A
 * block counts if its correlation is {@value #LIKE} or more, and stands out from what the same
 * block reaches elsewhere in that range: a held note is like itself at any multiple of its period.
 * Blocks that follow one another with the same turn, for {@value #LEAST_TURNS} of it, make a
 * repeat. Music that is made of loops may repeat so too: the finding says so.
 */
public final class TurnRepeats implements BlockMeter {
  static final int RATE = 3000;
  private static final double BLOCK_SECONDS = 0.16;
  private static final double LIKE = 0.8;

  /** What the next best place lacks of 1 is this many times what the best lacks, and a little. */
  private static final double STANDS_OUT = 3;

  private static final double LEAST_APART = 0.02;
  private static final double LEAST_TURNS = 0.6;

  /** Blocks in a row that may miss: those that lie across the seam of two turns. */
  private static final int MOST_MISSED = 4;

  private static final double SAME_TURN = 0.002;
  private static final double HIGH_PASS_HERTZ = 100;
  private static final double[][] TURNS = {
    {60 / 82.0, 60 / 76.0}, {1.3133, 1.3533}, {1.773, 1.827}
  };

  /** -70 dB re full scale: below, blocks are not compared. */
  private static final double LEAST_POWER = 1e-7;

  private static final int MOST_KEPT = 200;

  private final int thin;
  private final double rate;

  private final double slow;
  private final int block;
  private final int reach;
  private final double[] sum;
  private final double[] difference;
  private double sumPower;
  private double differencePower;
  private final List<TurnRepeat> found = new ArrayList<>();
  private int filled;
  private long base;
  private long nextBlock;
  private double sumMean;
  private double differenceMean;
  private double sumHeld;
  private double differenceHeld;
  private int inThin;
  private final double[] scores;

  // the likeness under way
  private long likeFrom = -1;
  private long likeTo;
  private double likeLag;
  private double likeSum;
  private int likeBlocks;
  private int missed;

  public TurnRepeats(int sampleRateHz) {
    thin = Math.max(1, sampleRateHz / RATE);
    rate = sampleRateHz / (double) thin;
    slow = 1 - StrictMath.exp(-2 * Math.PI * HIGH_PASS_HERTZ / rate);
    block = (int) (BLOCK_SECONDS * rate);
    reach = (int) (TURNS[TURNS.length - 1][1] * rate) + 2;
    sum = new double[2 * (reach + block) + (1 << 15)];
    difference = new double[sum.length];
    scores = new double[(int) (0.12 * rate) + 8];
    nextBlock = reach;
  }

  @Override
  public void accept(long[][] words, double[][] samples, int count) {
    double[] left = samples[0];
    double[] right = samples[samples.length - 1];
    for (int i = 0; i < count; i++) {
      sumHeld += left[i] + right[i];
      differenceHeld += left[i] - right[i];
      if (++inThin == thin) {
        put(sumHeld / (2 * thin), differenceHeld / (2 * thin));
        inThin = 0;
        sumHeld = 0;
        differenceHeld = 0;
      }
    }
  }

  private void put(double s, double d) {
    sumMean += slow * (s - sumMean);
    differenceMean += slow * (d - differenceMean);
    if (filled == sum.length) {
      int drop = filled - reach - block;
      System.arraycopy(sum, drop, sum, 0, filled - drop);
      System.arraycopy(difference, drop, difference, 0, filled - drop);
      filled -= drop;
      base += drop;
    }
    sum[filled] = s - sumMean;
    difference[filled++] = d - differenceMean;
    sumPower += (s - sumMean) * (s - sumMean);
    differencePower += (d - differenceMean) * (d - differenceMean);
    // at once, so that the choice of sum or difference does not hang on the cut into blocks
    compare();
  }

  private void compare() {
    if (nextBlock + block <= base + filled) {
      double[] x = differencePower > 4 * sumPower ? difference : sum;
      one(x, (int) (nextBlock - base));
      nextBlock += block / 2;
    }
  }

  private void one(double[] x, int at) {
    double power = power(x, at);
    double best = 0;
    double bestLag = 0;
    if (power > LEAST_POWER * block) {
      for (double[] turn : TURNS) {
        int from = (int) (turn[0] * rate);
        int to = Math.min((int) (turn[1] * rate), from + scores.length - 1);
        int n = to - from + 1;
        double other = power(x, at - from);
        for (int k = 0; k < n; k++) {
          int lag = from + k;
          scores[k] = product(x, at, lag) / Math.sqrt(power * Math.max(other, 1e-30));
          if (at - lag - 1 >= 0) {
            double in = x[at - lag - 1];
            double out = x[at - lag - 1 + block];
            other += in * in - out * out;
          }
        }
        int peak = peak(n);
        double value = between(peak, n);
        if (value > best && 1 - elsewhere(peak, n) > STANDS_OUT * (1 - value) + LEAST_APART) {
          best = value;
          bestLag = from + peak;
        }
      }
    }
    judge(best, bestLag);
  }

  /** Four sums side by side: one alone waits for itself at each step. */
  private double product(double[] x, int at, int lag) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    int end = at + block;
    int i = at;
    for (; i <= end - 4; i += 4) {
      a += x[i] * x[i - lag];
      b += x[i + 1] * x[i + 1 - lag];
      c += x[i + 2] * x[i + 2 - lag];
      d += x[i + 3] * x[i + 3 - lag];
    }
    for (; i < end; i++) {
      a += x[i] * x[i - lag];
    }
    return a + b + (c + d);
  }

  private double power(double[] x, int at) {
    double sum = 0;
    for (int i = at; i < at + block; i++) {
      sum += x[i] * x[i];
    }
    return sum;
  }

  private int peak(int n) {
    int peak = 0;
    for (int k = 1; k < n; k++) {
      if (scores[k] > scores[peak]) {
        peak = k;
      }
    }
    return peak;
  }

  /** Height of the parabola through the highest score and its neighbours. */
  private double between(int peak, int n) {
    if (peak == 0 || peak == n - 1) {
      return scores[peak];
    }
    double a = scores[peak - 1];
    double b = scores[peak];
    double c = scores[peak + 1];
    double curve = a - 2 * b + c;
    return curve < 0 ? b - (a - c) * (a - c) / (8 * curve) : b;
  }

  /** Highest score beyond the valley around the peak. */
  private double elsewhere(int peak, int n) {
    int low = peak;
    while (low > 0 && scores[low - 1] <= scores[low]) {
      low--;
    }
    int high = peak;
    while (high < n - 1 && scores[high + 1] <= scores[high]) {
      high++;
    }
    double most = 0;
    for (int k = 0; k < low; k++) {
      most = Math.max(most, scores[k]);
    }
    for (int k = high + 1; k < n; k++) {
      most = Math.max(most, scores[k]);
    }
    return most;
  }

  private void judge(double likeness, double lag) {
    boolean like = likeness >= LIKE;
    if (like && likeFrom >= 0 && Math.abs(lag / likeLag - 1) <= SAME_TURN) {
      likeTo = nextBlock + block;
      likeSum += likeness;
      likeBlocks++;
      missed = 0;
    } else if (like) {
      close();
      likeFrom = nextBlock;
      likeTo = nextBlock + block;
      likeLag = lag;
      likeSum = likeness;
      likeBlocks = 1;
      missed = 0;
    } else if (likeFrom >= 0 && ++missed > MOST_MISSED) {
      close();
    }
  }

  private void close() {
    if (likeFrom >= 0) {
      double turns = (likeTo - likeFrom) / likeLag;
      if (turns >= LEAST_TURNS && found.size() < MOST_KEPT) {
        found.add(
            new TurnRepeat(
                (long) ((likeFrom - likeLag) * thin),
                likeTo * thin,
                likeLag / rate,
                turns,
                likeSum / likeBlocks));
      }
    }
    likeFrom = -1;
    missed = 0;
  }

  /** After the last block. */
  public List<TurnRepeat> finish() {
    close();
    return List.copyOf(found);
  }
}
