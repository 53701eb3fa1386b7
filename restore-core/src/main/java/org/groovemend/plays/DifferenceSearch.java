package org.groovemend.plays;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.predict.Burg;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;

/**
 * Finds places where one play differs from the others by more than noise, and tells whose damage it
 * is.
 *
 * <p>The music cancels in the difference d of a play from the mean of the others, so a click stands
 * out of noise alone. The difference is whitened by its own predictor; a place begins where the
 * forward error, and ends where the backward error, leaves its noise. Whose: with w the predictor
 * of the music before the place, t = (w x . w d) / (w d . w d) is 1 if the damage is in x and 0 if
 * it is in the others; its doubt is the prediction error of the music over the length of w d. One
 * instance per thread.
 */
final class DifferenceSearch {
  /** Deviations from which on a place is one: twice in 10^8 samples of Gaussian noise. */
  private static final double STANDS_OUT = 5.6;

  private static final double EXTENT = 3;
  private static final int NOISE_ORDER = 24;
  private static final int MUSIC_ORDER = 96;
  private static final int MUSIC_FRAMES = 3069;

  /** Binomial filters of 4, 8, 16 and 32 steps, narrow ones first; each gone at half the rate. */
  private static final double[][] SMOOTH = {binomial(4), binomial(8), binomial(16), binomial(32)};

  private static double[] binomial(int steps) {
    double[] taps = new double[steps + 1];
    taps[0] = 1;
    for (int s = 0; s < steps; s++) {
      for (int k = s + 1; k > 0; k--) {
        taps[k] = (taps[k] + taps[k - 1]) / 2;
      }
      taps[0] /= 2;
    }
    return taps;
  }

  /** Share of its energy that a smoothed difference must keep. */
  private static final double KEPT = 0.8;

  /** Odd, so that one is in the middle. */
  private static final int NOISE_PARTS = 9;

  /** Deviations to which the difference is held before its noise is modelled. */
  private static final double HELD = 3.5;

  private static final int SCALE_FRAMES = 4096;
  private static final double GAP_SECONDS = 0.25e-3;
  private static final double LONGEST_SECONDS = 0.05;
  private static final double BRIEF_SECONDS = 0.5e-3;

  private static final double[] WIDTHS_SECONDS = {60e-6, 130e-6};

  /** Level of a tail, over a short box, up to which it still counts. */
  private static final double TAIL = 2.5;

  private static final int BOX = 24;

  /** Share of a difference that must be in the other play too to be called damage of both. */
  private static final double SHARED = 0.3;

  /** Evidence from which on the damaged play is sure: twenty to one. */
  private static final double SURE = 3;

  private final int gap;
  private final int longest;
  private final int brief;
  private final Burg burg;
  private final Burg musicBurg = new Burg(MUSIC_FRAMES);
  private final double[] a = new double[NOISE_ORDER + 1];
  private final double[] music = new double[MUSIC_ORDER + 1];
  private final double[] mean = new double[MUSIC_FRAMES];
  private final double[] d;
  private final double[] back;
  private final double[] forward;
  private final double[] backward;
  private final double[] work = new double[SCALE_FRAMES];
  private final double[] lengths = new double[NOISE_PARTS];
  private final double[] alongs = new double[NOISE_PARTS];
  private final double[] sorted = new double[NOISE_PARTS];
  private double along;
  private double length;
  private double noiseAlong;
  private double noiseLength;
  private final double[][] shapes;
  private final double[] whitened;
  private final double[] seen;
  private final double[] matched;
  private final double[] template;
  private final double[] one;
  private final double[] two;

  /**
   * @param most frames of the longest stretch
   */
  DifferenceSearch(int rate, int most) {
    gap = (int) Math.max(2, GAP_SECONDS * rate);
    longest = (int) (LONGEST_SECONDS * rate);
    brief = (int) (BRIEF_SECONDS * rate);
    burg = new Burg(most);
    d = new double[most];
    back = new double[most];
    shapes = shapes(rate);
    whitened = new double[shapes[shapes.length - 1].length];
    seen = new double[most];
    matched = new double[most];
    template = new double[most];
    forward = new double[most];
    backward = new double[most];
    one = new double[longest + 4 * MUSIC_ORDER];
    two = new double[longest + 4 * MUSIC_ORDER];
  }

  /**
   * Looks through a stretch.
   *
   * @param x by play and channel; damage that is found is overwritten in it
   * @param from first frame that counts
   * @param to end of those that count
   * @param first frame number of index 0
   */
  List<Place> find(double[][][] x, int from, int to, long first) {
    List<Judged> judged = new ArrayList<>();
    int channels = x[0].length;
    for (int c = 0; c < channels; c++) {
      int plays = x.length;
      List<int[]> spans = new ArrayList<>();
      for (int p = 0; p < (plays == 2 ? 1 : plays); p++) {
        difference(x, c, p, from, to);
        spans.addAll(stands(from, to));
      }
      spans.sort((s, t) -> Integer.compare(s[0], t[0]));
      List<Judged> once = new ArrayList<>();
      int end = -1;
      for (int[] span : spans) {
        if (span[0] >= end) {
          Judged one = judge(x, c, span[0], span[1], from, to);
          clear(x, c, one);
          once.add(one);
          end = span[1];
        }
      }
      // once more, now that damage behind each place is gone as well
      for (Judged one : once) {
        one.restore(x);
        Judged again = judge(x, c, one.start, one.end, from, to);
        clear(x, c, again);
        judged.add(again);
      }
    }
    List<Place> found = new ArrayList<>();
    for (Judged one : judged) {
      found.add(place(one, judged, first));
    }
    if (channels == 2) {
      briefOnes(found);
    }
    found.sort(
        (s, t) ->
            s.start() == t.start()
                ? Integer.compare(s.channel(), t.channel())
                : Long.compare(s.start(), t.start()));
    return found;
  }

  private void difference(double[][][] x, int c, int p, int from, int to) {
    double share = 1.0 / (x.length - 1);
    for (int i = from; i < to; i++) {
      double others = 0;
      for (int q = 0; q < x.length; q++) {
        others += q == p ? 0 : x[q][c][i];
      }
      d[i] = x[p][c][i] - share * others;
    }
  }

  private List<int[]> stands(int from, int to) {
    List<int[]> spans = new ArrayList<>();
    int n = to - from;
    if (n < 8 * NOISE_ORDER) {
      return spans;
    }
    // the noise is to be modelled, not what stands out of it
    for (int block = from; block < to; block += SCALE_FRAMES) {
      int end = Math.min(to, block + SCALE_FRAMES);
      double held = HELD * RobustScale.aboutZero(d, block, end, work);
      for (int i = block; i < end; i++) {
        back[i] = Math.max(-held, Math.min(held, d[i]));
      }
    }
    double error = burg.fit(back, from, n, NOISE_ORDER, a, null);
    if (!(error > 0)) {
      return spans;
    }
    for (int i = from; i < to; i++) {
      back[to - 1 - i + from] = d[i];
    }
    PredictionFilter.residual(a, NOISE_ORDER, d, from + NOISE_ORDER, to, forward);
    PredictionFilter.residual(a, NOISE_ORDER, back, from + NOISE_ORDER, to, backward);
    for (int block = from + NOISE_ORDER; block < to - NOISE_ORDER; block += SCALE_FRAMES) {
      int end = Math.min(to - NOISE_ORDER, block + SCALE_FRAMES);
      double scale = RobustScale.aboutZero(forward, block, end, work);
      double level = RobustScale.aboutZero(d, block, end, work);
      if (!(scale > 0)) {
        continue;
      }
      matched(block, end, from, to);
      for (int i = block; i < end; i++) {
        if (Math.abs(forward[i]) > STANDS_OUT * scale
            || Math.abs(behind(i, from, to)) > STANDS_OUT * scale
            || matched[i] > STANDS_OUT) {
          int[] span = extent(i, from, to, scale, level);
          if (span[1] - span[0] <= longest) {
            spans.add(span);
          }
          i = Math.max(i, span[1] + NOISE_ORDER);
        }
      }
    }
    return spans;
  }

  /** Largest deviation of the error seen through smooth shapes: finds damage without an edge. */
  private void matched(int block, int end, int from, int to) {
    Arrays.fill(matched, block, end, 0);
    for (double[] shape : shapes) {
      PredictionFilter.residual(a, NOISE_ORDER, shape, NOISE_ORDER, shape.length, whitened);
      int middle = shape.length / 2;
      for (int i = block; i < end; i++) {
        double sum = 0;
        int low = Math.max(NOISE_ORDER, from + NOISE_ORDER - i + middle);
        int high = Math.min(shape.length, to - i + middle);
        for (int k = low; k < high; k++) {
          sum += whitened[k] * forward[i + k - middle];
        }
        seen[i] = sum;
      }
      double scale = RobustScale.aboutZero(seen, block, end, work);
      for (int i = block; i < end; i++) {
        matched[i] = Math.max(matched[i], Math.abs(seen[i]) / (scale + 1e-300));
      }
    }
  }

  /** Humps and swings of two widths, silence about them for the predictor to run in and out. */
  private static double[][] shapes(int rate) {
    double[][] shapes = new double[2 * WIDTHS_SECONDS.length][];
    for (int s = 0; s < shapes.length; s++) {
      double width = WIDTHS_SECONDS[s / 2] * rate;
      int half = (int) Math.ceil(3 * width);
      shapes[s] = new double[2 * half + 1 + 2 * NOISE_ORDER];
      for (int i = -half; i <= half; i++) {
        double u = i / width;
        shapes[s][half + NOISE_ORDER + i] = (s % 2 == 0 ? 1 : u) * StrictMath.exp(-u * u / 2);
      }
    }
    return shapes;
  }

  private double behind(int i, int from, int to) {
    return backward[to - 1 - i + from];
  }

  private int[] extent(int hit, int from, int to, double scale, double level) {
    // the error behind may rise before the damage: the peak of both lies in it
    int peak = hit;
    double most = 0;
    for (int i = hit; i < Math.min(to - NOISE_ORDER, hit + 2 * NOISE_ORDER); i++) {
      double both = Math.abs(forward[i]) * Math.abs(behind(i, from, to));
      if (both > most) {
        most = both;
        peak = i;
      }
    }
    int start = peak;
    for (int i = peak; i >= from + NOISE_ORDER && i >= start - gap; i--) {
      if (Math.abs(forward[i]) > EXTENT * scale) {
        start = i;
      }
    }
    int end = peak + 1;
    for (int i = peak; i < to - NOISE_ORDER && i < end + gap && i < peak + longest; i++) {
      if (Math.abs(behind(i, from, to)) > EXTENT * scale) {
        end = i + 1;
      }
    }
    while (end + BOX < to - NOISE_ORDER && end - start < longest && box(end) > TAIL * level) {
      end += BOX / 2;
    }
    return new int[] {Math.max(from, start - 2), Math.min(to, end + 2)};
  }

  private double box(int at) {
    double sum = 0;
    for (int i = at; i < at + BOX; i++) {
      sum += d[i] * d[i];
    }
    return Math.sqrt(sum / BOX);
  }

  /**
   * What is known of a place in one channel.
   *
   * @param evidence by play: logarithm of how much likelier it is damaged there than sound
   * @param extra by play: evidence that the play has as much again of the difference as damage
   * @param peak largest difference
   * @param original samples by play
   */
  private record Judged(
      int channel,
      int start,
      int end,
      double[] evidence,
      double[] extra,
      double peak,
      double[][] original) {

    /** Puts back what was there. */
    void restore(double[][][] x) {
      for (int p = 0; p < x.length; p++) {
        System.arraycopy(original[p], 0, x[p][channel], start, end - start);
      }
    }
  }

  private Judged judge(double[][][] x, int c, int start, int end, int from, int to) {
    int plays = x.length;
    double[] evidence = new double[plays];
    double[] extra = new double[plays];
    double peak = 0;
    // foretold from before, and backwards from behind, each by what it says of the music there
    boolean told = false;
    for (int way = -1; way <= 1; way += 2) {
      int m0 = way < 0 ? start - MUSIC_FRAMES : end;
      if (m0 < from || m0 + MUSIC_FRAMES > to) {
        continue;
      }
      told = true;
      for (int i = 0; i < MUSIC_FRAMES; i++) {
        double sum = 0;
        for (double[][] play : x) {
          sum += play[c][m0 + i];
        }
        mean[i] = sum / plays;
      }
      double error = musicBurg.fit(mean, 0, MUSIC_FRAMES, MUSIC_ORDER, music, null) + 1e-300;
      weigh(x, c, start, end, from, to, way, m0, error, evidence, extra);
    }
    if (!told) {
      Arrays.fill(music, 0);
      music[0] = 1;
      weigh(x, c, start, end, from, to, -1, -1, 1, evidence, extra);
    }
    for (int p = 0; p < plays; p++) {
      difference(x, c, p, start, end);
      for (int i = start; i < end; i++) {
        peak = Math.max(peak, Math.abs(d[i]));
      }
    }
    double[][] original = new double[plays][];
    for (int p = 0; p < plays; p++) {
      original[p] = Arrays.copyOfRange(x[p][c], start, end);
    }
    return new Judged(c, start, end, evidence, extra, peak, original);
  }

  private void weigh(
      double[][][] x,
      int c,
      int start,
      int end,
      int from,
      int to,
      int way,
      int m0,
      double error,
      double[] evidence,
      double[] extra) {
    int smooth = smoothed(x, c, start, end, from, to);
    int low = Math.max(from, way < 0 ? start : start - MUSIC_ORDER);
    int high = Math.min(to, way < 0 ? end + MUSIC_ORDER : end);
    for (int p = 0; p < evidence.length; p++) {
      if (m0 >= 0) {
        noise(x, c, p, m0, from, to, way, smooth);
      } else {
        noiseAlong = 0;
        noiseLength = 0;
      }
      template(x, c, p, start, end, from, to, smooth);
      sums(x[p][c], low, high, from, to, way);
      // what noise gives anyhow: it would lean to the noisier play
      double sum = along - (end - start) * noiseAlong;
      double square = Math.max(0, length - (end - start) * noiseLength);
      evidence[p] += (sum - 0.5 * square) / error;
      double more = (sum + SHARED * square) / (Math.sqrt(length * error) + 1e-300);
      extra[p] = way < 0 ? more : Math.max(extra[p], more);
    }
  }

  /**
   * The widest filter that leaves the difference nearly all there: then most of its noise is not.
   * -1 for none.
   */
  private int smoothed(double[][][] x, int c, int start, int end, int from, int to) {
    for (int width = SMOOTH.length - 1; width >= 0; width--) {
      template(x, c, 0, start, end, from, to, width);
      double kept = 0;
      double all = 0;
      for (int i = start; i < end; i++) {
        kept += template[i] * template[i];
        all += d[i] * d[i];
      }
      if (kept > KEPT * all) {
        return width;
      }
    }
    return -1;
  }

  /** The difference over [start, end), smoothed or not, and nothing about it. */
  private void template(
      double[][][] x, int c, int p, int start, int end, int from, int to, int smooth) {
    double[] taps = smooth < 0 ? new double[] {1} : SMOOTH[smooth];
    int half = taps.length / 2;
    int low = Math.max(from, start - half);
    int high = Math.min(to, end + half);
    difference(x, c, p, low, high);
    Arrays.fill(template, Math.max(from, start - 2 * MUSIC_ORDER), start, 0);
    Arrays.fill(template, end, Math.min(to, end + 2 * MUSIC_ORDER), 0);
    for (int i = start; i < end; i++) {
      double sum = 0;
      for (int k = Math.max(-half, low - i); k <= half && i + k < high; k++) {
        sum += taps[k + half] * d[i + k];
      }
      template[i] = sum;
    }
  }

  /** Sums over [low, high) of the whitened play times the whitened template, and its square. */
  private void sums(double[] x, int low, int high, int from, int to, int way) {
    whiten(x, low, high, from, to, way, one);
    whiten(template, low, high, from, to, way, two);
    along = 0;
    length = 0;
    for (int i = 0; i < high - low; i++) {
      along += one[i] * two[i];
      length += two[i] * two[i];
    }
  }

  /** The same sums a frame where the predictor was made: the part that has the middle length. */
  private void noise(double[][][] x, int c, int p, int m0, int from, int to, int way, int smooth) {
    int each = MUSIC_FRAMES / NOISE_PARTS;
    for (int part = 0; part < NOISE_PARTS; part++) {
      int low = m0 + part * each;
      template(x, c, p, low, low + each, from, to, smooth);
      sums(x[p][c], low, low + each, from, to, way);
      lengths[part] = length / each;
      alongs[part] = along / each;
    }
    System.arraycopy(lengths, 0, sorted, 0, NOISE_PARTS);
    noiseLength = Median.of(sorted, 0, NOISE_PARTS);
    double share = 0;
    int some = 0;
    for (int part = 0; part < NOISE_PARTS; part++) {
      if (lengths[part] <= noiseLength) {
        share += alongs[part];
        some++;
      }
    }
    noiseAlong = share / some;
  }

  /** Damaged sound is to tell nothing about the places behind it. */
  private static void clear(double[][][] x, int c, Judged one) {
    int best = 0;
    for (int p = 1; p < x.length; p++) {
      best = one.evidence[p] < one.evidence[best] ? p : best;
    }
    for (int p = 0; p < x.length; p++) {
      if (one.evidence[p] > 0) {
        System.arraycopy(x[best][c], one.start, x[p][c], one.start, one.end - one.start);
      }
    }
  }

  /** Damage that meets both channels at once is of one play: their evidence adds up. */
  private Place place(Judged one, List<Judged> all, long first) {
    int plays = one.evidence.length;
    double[] evidence = one.evidence.clone();
    boolean everywhere = true;
    for (Judged other : all) {
      if (other.channel != one.channel && other.start < one.end && one.start < other.end) {
        for (int p = 0; p < plays; p++) {
          evidence[p] += other.evidence[p];
        }
      }
    }
    if (plays == 2) {
      // with two, damage is in one or the other
      evidence[0] = (evidence[0] - evidence[1]) / 2;
      evidence[1] = -evidence[0];
    }
    int damaged = 0;
    int most = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int p = 0; p < plays; p++) {
      damaged |= evidence[p] > 0 ? 1 << p : 0;
      most = evidence[p] > evidence[most] ? p : most;
      least = Math.min(least, Math.abs(evidence[p]));
      everywhere &= evidence[p] > 0;
    }
    if (damaged == 0) {
      damaged = 1 << most;
    }
    // of two plays, the one that has less of it has some nevertheless: t below 0 there
    everywhere |= plays == 2 && Math.min(one.extra[0], one.extra[1]) < -4;
    int source = -1;
    for (int p = plays - 1; p >= 0 && !everywhere; p--) {
      source = (damaged >> p & 1) == 0 ? p : source;
    }
    return new Place(
        one.channel,
        first + one.start,
        first + one.end,
        damaged,
        source,
        one.peak,
        least > SURE,
        false);
  }

  /** Error of the music's predictor, from before or from behind; outside there is silence. */
  private void whiten(double[] x, int low, int high, int from, int to, int way, double[] into) {
    for (int i = low; i < high; i++) {
      double sum = 0;
      for (int k = 0; k <= MUSIC_ORDER; k++) {
        int at = i + way * k;
        sum += at >= from && at < to ? music[k] * x[at] : 0;
      }
      into[i - low] = sum;
    }
  }

  private void briefOnes(List<Place> found) {
    for (int i = 0; i < found.size(); i++) {
      Place one = found.get(i);
      if (one.everywhere() || one.end() - one.start() > brief) {
        continue;
      }
      for (Place other : found) {
        if (other.channel() != one.channel()
            && other.damaged() == one.damaged()
            && other.start() < one.end()
            && one.start() < other.end()
            && other.end() - other.start() <= brief) {
          found.set(i, one.asBrief());
          break;
        }
      }
    }
  }
}
