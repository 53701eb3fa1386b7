package org.groovemend.click;

import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.linear.BandedCholesky;
import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;

/**
 * Finds the places that stand out in one block of one channel. One instance per thread.
 *
 * <p>An AR model is fitted to the block; the strongest two-sided prediction error is taken as a
 * place, its extent found from the forward residual (which begins where the damage begins) and the
 * backward residual (which ends where it ends), the place filled by least squares, and the next
 * strongest sought; then the model is fitted again to the filled block and all is done once more
 * from the original samples.
 */
final class BlockDetector {
  private static final double FIT_NOISE = 1e-7;
  private static final double FIRST_LOOK = 5;
  private static final double EXTENT = 3.5;
  private static final double TRIM = 9;

  /** Share of a place's largest residual below which its tail is left alone. */
  private static final double TAIL = 0.02;

  /**
   * Share of a place's largest two-sided error below which its neighbourhood holds no place of its
   * own.
   */
  private static final double SHADOW = 0.03;

  private static final int MOST_TRIMS = 6;
  private static final int ROUNDS = 2;

  /** Square of the deviations from which the other channel's pulse counts as found. */
  private static final double MATCHED = 16;

  /**
   * Most that agreement of the channels takes from the log odds of a place: a blow across the whole
   * groove hits both walls alike.
   */
  private static final double AGREEMENT = 2;

  /**
   * Scale of the error, in that of the samples' rounding, below which there is nothing to stand
   * clear of.
   */
  private static final double SURROUNDED = 16;

  /**
   * Difference of two channels' errors, as a share of one's, below which one is a copy of the
   * other.
   */
  private static final double COPY = 0.03;

  private final int hop;
  private final int size;
  private final int order;
  private final int longest;
  private final int local;
  private final int stretch;
  private final int stride;
  private final Autocorrelation autocorrelation;
  private final double[] window;
  private final double[] r;
  private final double[] a;
  private final double[] b;
  private final double[] x;
  private final double[] z;
  private final double[] e;
  private final double[] y;
  private final double[] work;
  private final double[] d;
  private final double[] shadow;
  private final double[] o;
  private final double[] eo;
  private final BandedCholesky cholesky = new BandedCholesky();
  private double scale;
  private final double[] scales;
  private double lastPivot;
  private final Places places = new Places();
  private final CandidateTraits traits;
  private final double rate;

  BlockDetector(ClickGeometry g, double rate) {
    hop = g.hop();
    size = g.window();
    order = g.order();
    longest = g.longestCore();
    local = g.local();
    stretch = hop / 4;
    stride = hop / 1024;
    autocorrelation = new Autocorrelation(size, order);
    window = new double[size];
    MidpointHann.fill(window, size);
    r = new double[order + 1];
    a = new double[order + 1];
    b = new double[order + 1];
    x = new double[size];
    z = new double[size];
    e = new double[size];
    y = new double[size];
    work = new double[size];
    d = new double[size];
    shadow = new double[size];
    o = new double[size];
    eo = new double[size];
    traits = new CandidateTraits(g);
    this.rate = rate;
    scales = new double[size];
  }

  /**
   * Adds the places of the block that begins at index {@code at}.
   *
   * @param signal has at least half a hop before and one and a half after {@code at}
   * @param firstFrame frame number of index 0
   * @param floor least standard deviation of the residual, full scale 1.0
   */
  void find(
      double[] signal,
      double[] otherSignal,
      int at,
      long firstFrame,
      int channel,
      double floor,
      List<Candidate> out) {
    int origin = at - hop / 2;
    System.arraycopy(signal, origin, x, 0, size);
    System.arraycopy(x, 0, z, 0, size);
    for (int round = 0; round < ROUNDS; round++) {
      if (!fit(floor)) {
        return;
      }
      System.arraycopy(x, 0, z, 0, size);
      if (round == 0 && quiet(floor)) {
        return;
      }
      filter(order, size);
      setScale(order, size - order, floor);
      peel();
      if (places.count() == 0) {
        return;
      }
    }
    boolean other = otherSignal != null && differs(otherSignal, origin);
    Block block = new Block(x, z, e, other ? eo : null, a, b, order, rootMeanSquare(z));
    for (int i = 0; i < places.count(); i++) {
      int middle = (places.start(i) + places.end(i)) / 2;
      if (middle >= hop / 2 - order && middle < 3 * hop / 2 + order) {
        out.add(describe(block, i, origin + firstFrame, channel, floor));
      }
    }
  }

  /**
   * Looks in this channel for the pulse that damaged the other one: the groove's two walls are hit
   * by the same thing, so that the pulse is known but for its size and sign, and may be found far
   * below what stands out by itself (matched filter in coloured noise; Vaseghi 1988).
   *
   * @param firstFrame frame number of index 0
   * @param start frame where the pulse begins, in the middle half of the block that begins at index
   *     {@code at}
   * @param pulse damage of the other channel
   * @return the place, or null if the pulse is not there
   */
  Candidate match(
      double[] signal,
      int at,
      long firstFrame,
      int channel,
      double floor,
      long start,
      double[] pulse) {
    int origin = at - hop / 2;
    System.arraycopy(signal, origin, x, 0, size);
    System.arraycopy(x, 0, z, 0, size);
    if (!fit(floor)) {
      return null;
    }
    filter(order, size);
    setScale(order, size - order, floor);
    int from = (int) (start - firstFrame) - origin;
    int m = pulse.length;
    if (from < 2 * order || from + m + 2 * order > size) {
      return null;
    }
    double found = 0;
    double energy = 0;
    for (int n = 0; n < m + order; n++) {
      double expected = 0;
      for (int k = Math.max(0, n - m + 1); k <= Math.min(order, n); k++) {
        expected += a[k] * pulse[n - k];
      }
      found += expected * e[from + n];
      energy += expected * expected;
    }
    scale = scales[from];
    double matched = found * found / (energy * scale * scale);
    if (!(matched > MATCHED)) {
      return null;
    }
    solve(from, m);
    for (int i = 0; i < m; i++) {
      z[from + i] -= d[i];
    }
    return new Candidate(
        start,
        m,
        channel,
        (matched - MATCHED) / 2,
        scale,
        Arrays.copyOfRange(z, from, from + m),
        new double[Trait.COUNT]);
  }

  /**
   * True if the other channel has an error of its own, which it has not where one channel was
   * copied to the other.
   */
  private boolean differs(double[] otherSignal, int origin) {
    System.arraycopy(otherSignal, origin, o, 0, size);
    PredictionFilter.residual(a, order, o, order, size, eo);
    for (int n = order; n < size; n++) {
      d[n] = e[n] - eo[n];
    }
    return scaleOf(d, order, size) > COPY * scaleOf(e, order, size);
  }

  private boolean fit(double floor) {
    autocorrelation.compute(z, 0, size, window, r);
    if (!(r[0] > floor * floor * size * 1e-2) || !(r[0] > 1e-200)) {
      return false;
    }
    r[0] *= 1 + FIT_NOISE;
    LevinsonDurbin.solve(r, order, a, null);
    PredictionFilter.coefficientCorrelation(a, order, b);
    return true;
  }

  /** Residual and two-sided error of z where they depend on [from, to). */
  private void filter(int from, int to) {
    int f = Math.max(order, from);
    int t = Math.min(size, to + order);
    if (t > f) {
      PredictionFilter.residual(a, order, z, f, t, e);
    }
    int yf = Math.max(order, from - order);
    int yt = Math.min(size - order, to + order);
    if (yt > yf) {
      PredictionFilter.matched(a, order, e, yf, yt, y);
    }
  }

  /**
   * True if nothing stands out in the block's own half of the window: most blocks end here, at half
   * the work.
   */
  private boolean quiet(double floor) {
    int from = hop / 2 - order;
    int to = 3 * hop / 2 + order;
    PredictionFilter.residual(a, order, z, from, to + order, e);
    PredictionFilter.matched(a, order, e, from, to, y);
    setScale(from, to, floor);
    double weight = 1 / Math.sqrt(b[0]);
    for (int n = from; n < to; n++) {
      double least = FIRST_LOOK * scales[n];
      if (Math.abs(e[n]) > least || weight * Math.abs(y[n]) > least) {
        return false;
      }
    }
    return true;
  }

  /**
   * Scale of the error about every sample of [from, to): medians of short stretches, joined by
   * straight lines.
   */
  private void setScale(int from, int to, double floor) {
    int last = -1;
    double before = 0;
    for (int s = from; s < to; ) {
      int t = to - s < 2 * stretch ? to : s + stretch;
      double v = Math.max(floor, Math.max(scaleOf(y, s, t) / Math.sqrt(b[0]), scaleOf(e, s, t)));
      int centre = (s + t) / 2;
      if (last < 0) {
        Arrays.fill(scales, from, centre, v);
      } else {
        double step = (v - before) / (centre - last);
        for (int n = last; n < centre; n++) {
          scales[n] = before + step * (n - last);
        }
      }
      last = centre;
      before = v;
      s = t;
    }
    Arrays.fill(scales, last, to, before);
  }

  /**
   * Of every sample at the lower rates, of fewer at the higher ones: about 256 tell the scale to 7
   * per cent.
   */
  private double scaleOf(double[] v, int from, int to) {
    int n = 0;
    for (int i = from; i < to; i += stride) {
      work[n++] = Math.abs(v[i]);
    }
    return RobustScale.NORMAL * Median.of(work, 0, n);
  }

  private void peel() {
    places.clear();
    Arrays.fill(shadow, 0);
    double weight = 1 / Math.sqrt(b[0]);
    int from = 2 * order;
    int to = size - 2 * order;
    for (int attempt = 0; attempt < 2 * Places.MOST && places.count() < Places.MOST; attempt++) {
      int peak = -1;
      double most = FIRST_LOOK;
      for (int n = from; n < to; n++) {
        double v = Math.max(weight * Math.abs(y[n]), Math.abs(e[n])) / scales[n];
        if (v > most && v > shadow[n]) {
          most = v;
          peak = n;
        }
      }
      if (peak < 0) {
        break;
      }
      scale = scales[peak];
      place(peak, most);
    }
  }

  /**
   * Finds the extent of the place about {@code peak} and fills it in z, unless it is too long to be
   * a click.
   */
  private void place(int peak, double top) {
    double largest = 0;
    for (int n = Math.max(order, peak - order); n < Math.min(size, peak + order); n++) {
      largest = Math.max(largest, Math.abs(e[n]));
    }
    double threshold = Math.max(EXTENT * scale, TAIL * largest);
    int gap = Math.max(4, order / 4);
    int start = peak;
    int least = Math.max(order, peak - longest);
    for (int n = peak; n >= least && n >= start - gap; n--) {
      if (Math.abs(e[n]) > threshold) {
        start = n;
      }
    }
    int end = peak + 1;
    int most = Math.min(size - order, peak + longest);
    for (int n = peak; n < most && n < end + gap; n++) {
      if (Math.abs(backward(n)) > threshold) {
        end = n + 1;
      }
    }
    if (end - start > longest) {
      darken(start, end, Double.POSITIVE_INFINITY, SHADOW * top);
      return;
    }
    int m = end - start;
    for (int trim = 0; ; trim++) {
      solve(start, m);
      double s2 = scale * scale;
      // what the last, and by symmetry the first, sample of the place is worth
      double pivot = lastPivot * lastPivot / s2;
      boolean last = d[m - 1] * d[m - 1] * pivot < TRIM;
      boolean first = d[0] * d[0] * pivot < TRIM;
      if (m <= 1 || trim == MOST_TRIMS || !(last || first)) {
        break;
      }
      if (first) {
        start++;
        m--;
      }
      if (last && m > 1) {
        m--;
      }
    }
    double explained = 0;
    double amplitude = 0;
    for (int i = 0; i < m; i++) {
      if (Math.abs(d[i]) > Math.abs(amplitude)) {
        amplitude = d[i];
      }
      explained += d[i] * y[start + i];
      z[start + i] -= d[i];
    }
    places.add(start, start + m, scale, Math.sqrt(Math.max(0, explained)) / scale, amplitude);
    darken(start, start + m, Double.POSITIVE_INFINITY, SHADOW * top);
    shadow[peak] = Double.POSITIVE_INFINITY;
    filter(start, start + m);
  }

  private void darken(int start, int end, double inside, double around) {
    int reach = longest;
    for (int n = Math.max(0, start - reach); n < Math.min(size, end + reach); n++) {
      shadow[n] = Math.max(shadow[n], n >= start && n < end ? inside : around);
    }
  }

  private void solve(int start, int m) {
    int width = Math.min(order, m - 1);
    cholesky.reset(m, width);
    for (int j = 0; j < m; j++) {
      for (int k = 0; k <= width && j + k < m; k++) {
        cholesky.set(j + k, j, b[k]);
      }
      d[j] = y[start + j];
    }
    cholesky.factor();
    cholesky.solve(d);
    lastPivot = cholesky.pivot(m - 1);
  }

  private double backward(int n) {
    double sum = 0;
    for (int k = 0; k <= order; k++) {
      sum += a[k] * z[n + k];
    }
    return sum;
  }

  private Candidate describe(Block block, int i, long originFrame, int channel, double floor) {
    int start = places.start(i);
    int end = places.end(i);
    double unit = places.scale(i) * Math.sqrt(b[0]);
    double energy = 0;
    int t = Math.min(size, end + order);
    for (int n = start; n < t; n++) {
      energy += e[n] * e[n];
    }
    places.surroundings(
        i,
        scaleBetween(start - order / 2 - local, start - order / 2) / unit,
        scaleBetween(end + order / 2, end + order / 2 + local) / unit,
        Math.sqrt(energy / (t - start)) / places.scale(i));
    double[] measured = traits.measure(block, places, i, rate);
    double odds = WeightOfEvidence.mono().logOdds(measured);
    if (block.otherError() != null) {
      odds = Math.max(WeightOfEvidence.stereo().logOdds(measured), odds - AGREEMENT);
    }
    if (places.scale(i) > SURROUNDED * floor) {
      odds = Math.max(odds, WeightOfEvidence.standingClear(measured));
    }
    return new Candidate(
        originFrame + start,
        end - start,
        channel,
        odds,
        places.scale(i),
        Arrays.copyOfRange(z, start, end),
        measured);
  }

  private static double rootMeanSquare(double[] v) {
    double sum = 0;
    for (double s : v) {
      sum += s * s;
    }
    return Math.sqrt(sum / v.length);
  }

  private double scaleBetween(int from, int to) {
    int f = Math.max(order, from);
    int t = Math.min(size - order, to);
    return t - f < 16 ? 0 : RobustScale.aboutZero(y, f, t, work);
  }
}
