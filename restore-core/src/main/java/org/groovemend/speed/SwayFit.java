package org.groovemend.speed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.signal.robust.Median;

/**
 * How much of the movement of all partials is one sinusoid. Each partial has a pitch of its own
 * that is of no interest, so only movement within a partial counts, and where notes slide little of
 * their slope; a partial counts the more the steadier it is, so that a voice with vibrato has
 * little say.
 */
final class SwayFit {

  /** Movement that even the steadiest partial is taken to have, octaves: 0.7 cents. */
  private static final double FLOOR = 0.7 / 1200;

  /** Frames lap over one another; of so many each tells something of its own. */
  private static final double FRAMES_THAT_TELL = 4;

  /** What the frequency of a partial is uncertain by in a frame, at least: 0.1 cents. */
  private static final double STEADIEST = 0.1 / 1200;

  /** Median of the square of a normal variable of variance 1. */
  private static final double MEDIAN_OF_SQUARES = 0.4549;

  private static final double FREEDOM = 3;
  private static final int ANGLES = 24;

  private final PartialTracks tracks;
  private final double[] mean;
  private final double[] weight;

  /** Share of each partial's slope that is taken to be its own. */
  private final double[] freed;

  /** What is subtracted from every frame: sways found so far. */
  private final double[] known;

  private final double[] knownSum;

  /** Growth of the sway over the side. */
  private final double[] growth;

  private final double[] u;
  private final double[] v;
  private final double[][] sums = new double[5][];

  /**
   * A sinusoid.
   *
   * @param hertz of the sway
   * @param cos octaves of the cosine of the time since 0, before growth
   * @param sin of the sine
   * @param power drop of half the weighted square error
   * @param information of cosine and sine, that is half the trace of the normal equations
   */
  record Sway(double hertz, double cos, double sin, double power, double information) {
    double amplitude() {
      return Math.sqrt(cos * cos + sin * sin);
    }
  }

  SwayFit(PartialTracks tracks) {
    this.tracks = tracks;
    int n = tracks.count();
    int frames = tracks.frames();
    mean = new double[n];
    weight = new double[n];
    freed = new double[n];
    known = new double[frames];
    knownSum = new double[frames + 1];
    growth = new double[frames];
    Arrays.fill(growth, 1);
    u = new double[frames];
    v = new double[frames];
    for (int i = 0; i < sums.length; i++) {
      sums[i] = new double[frames + 1];
    }
    weigh(false);
  }

  /**
   * @param shrink share of its first radius that the groove loses until {@code seconds}
   */
  void setShrink(double shrink, double seconds) {
    for (int t = 0; t < growth.length; t++) {
      growth[t] = 1 / (1 - shrink * tracks.seconds(t) / seconds);
    }
  }

  /** Takes a sway as known from now on. */
  void subtract(Sway sway) {
    turn(sway.hertz());
    for (int t = 0; t < known.length; t++) {
      known[t] += sway.cos() * u[t] + sway.sin() * v[t];
      knownSum[t + 1] = knownSum[t] + known[t];
    }
  }

  /** Forgets all sways. */
  void forget() {
    Arrays.fill(known, 0);
    Arrays.fill(knownSum, 0);
  }

  /**
   * Weighs each partial by what it moves apart from the sways known, as errors with a t
   * distribution would be (K. Lange, R. Little, J. Taylor, J. Am. Stat. Assoc. 84, 1989): a partial
   * of ordinary steadiness counts in full, however steady it seems by luck.
   *
   * @param slides whether notes are taken to slide, each by a slope of its own that is of no
   *     interest either: a normal random effect, its variance that of the slopes found here. Only
   *     once the sway is known nearly, for until then it makes slopes itself
   */
  void weigh(boolean slides) {
    int n = tracks.count();
    double[] square = new double[n];
    double[] slope = new double[n];
    double[] left = new double[n];
    for (int i = 0; i < n; i++) {
      look(i, square, slope);
      double times = square(tracks.length(i));
      left[i] =
          Math.max(
              STEADIEST * STEADIEST,
              (square[i] - slope[i] * slope[i] * times) / (tracks.length(i) - 2));
    }
    double slide = slides ? slide(slope, left) : 0;
    double[] spread = new double[n];
    for (int i = 0; i < n; i++) {
      double times = square(tracks.length(i));
      freed[i] = slide * times / (slide * times + FRAMES_THAT_TELL * left[i]);
      spread[i] =
          Math.max(
              FLOOR * FLOOR,
              (square[i] - freed[i] * slope[i] * slope[i] * times) / (tracks.length(i) - 1));
    }
    double ordinary = n == 0 ? FLOOR * FLOOR : Median.of(spread.clone(), 0, n);
    for (int i = 0; i < n; i++) {
      double own = tracks.length(i) / FRAMES_THAT_TELL;
      weight[i] = (FREEDOM + own) / (FREEDOM * ordinary + own * spread[i]);
    }
  }

  /** Variance of the slopes of the longer half, less what chance gives them. */
  private double slide(double[] slope, double[] left) {
    int n = slope.length;
    if (n == 0) {
      return 0;
    }
    double[] lengths = new double[n];
    for (int i = 0; i < n; i++) {
      lengths[i] = tracks.length(i);
    }
    double middle = Median.of(lengths, 0, n);
    double[] squares = new double[n];
    double[] chance = new double[n];
    int count = 0;
    for (int i = 0; i < n; i++) {
      if (tracks.length(i) >= middle) {
        squares[count] = slope[i] * slope[i];
        chance[count] = FRAMES_THAT_TELL * left[i] / square(tracks.length(i));
        count++;
      }
    }
    double all = Median.of(squares, 0, count) / MEDIAN_OF_SQUARES;
    return Math.max(0, all - Median.of(chance, 0, count));
  }

  /** Sum of the squares of the frame numbers of a partial, counted from its middle. */
  private static double square(int length) {
    return length * ((double) length * length - 1) / 12;
  }

  /** Sum of squares about its level, and slope in octaves a frame, apart from the sways known. */
  private void look(int track, double[] squares, double[] slopes) {
    int n = tracks.length(track);
    int first = tracks.firstFrame(track);
    double sum = 0;
    for (int k = 0; k < n; k++) {
      sum += tracks.octaves(track, k);
    }
    mean[track] = sum / n;
    double level = (sum - knownSum[first + n] + knownSum[first]) / n;
    double square = 0;
    double product = 0;
    for (int k = 0; k < n; k++) {
      double r = tracks.octaves(track, k) - known[first + k] - level;
      square += r * r;
      product += (k - 0.5 * (n - 1)) * r;
    }
    squares[track] = square;
    slopes[track] = product / square(n);
  }

  /** The sinusoid of a frequency that fits best what is not known yet. */
  Sway at(double hertz) {
    turn(hertz);
    for (int t = 0; t < u.length; t++) {
      sums[0][t + 1] = sums[0][t] + u[t];
      sums[1][t + 1] = sums[1][t] + v[t];
      sums[2][t + 1] = sums[2][t] + u[t] * u[t];
      sums[3][t + 1] = sums[3][t] + u[t] * v[t];
      sums[4][t + 1] = sums[4][t] + v[t] * v[t];
    }
    double uu = 0;
    double uv = 0;
    double vv = 0;
    double uy = 0;
    double vy = 0;
    for (int i = 0; i < tracks.count(); i++) {
      int n = tracks.length(i);
      int a = tracks.firstFrame(i);
      int b = a + n;
      double meanU = (sums[0][b] - sums[0][a]) / n;
      double meanV = (sums[1][b] - sums[1][a]) / n;
      double w = weight[i];
      uu += w * (sums[2][b] - sums[2][a] - n * meanU * meanU);
      uv += w * (sums[3][b] - sums[3][a] - n * meanU * meanV);
      vv += w * (sums[4][b] - sums[4][a] - n * meanV * meanV);
      double level = mean[i] - (knownSum[b] - knownSum[a]) / n;
      double partU = 0;
      double partV = 0;
      double slopeU = 0;
      double slopeV = 0;
      double slopeY = 0;
      for (int k = 0; k < n; k++) {
        double y = tracks.octaves(i, k) - known[a + k] - level;
        double t = k - 0.5 * (n - 1);
        partU += u[a + k] * y;
        partV += v[a + k] * y;
        slopeU += t * u[a + k];
        slopeV += t * v[a + k];
        slopeY += t * y;
      }
      double free = w * freed[i] / square(n);
      uu -= free * slopeU * slopeU;
      uv -= free * slopeU * slopeV;
      vv -= free * slopeV * slopeV;
      uy += w * partU - free * slopeU * slopeY;
      vy += w * partV - free * slopeV * slopeY;
    }
    double det = uu * vv - uv * uv;
    if (!(det > 0)) {
      return new Sway(hertz, 0, 0, 0, 0);
    }
    double cos = (uy * vv - vy * uv) / det;
    double sin = (vy * uu - uy * uv) / det;
    return new Sway(hertz, cos, sin, 0.5 * (cos * uy + sin * vy), 0.5 * (uu + vv));
  }

  /**
   * Pitch by angle, mean of all turns: each partial's level is taken from the sways known.
   *
   * @param scale of the answer at growth 1
   */
  List<WowFinding.Angle> turn(double hertz, double scale) {
    double[] sum = new double[ANGLES];
    double[] square = new double[ANGLES];
    double[] all = new double[ANGLES];
    double[] count = new double[ANGLES];
    for (int i = 0; i < tracks.count(); i++) {
      int n = tracks.length(i);
      int a = tracks.firstFrame(i);
      double level = mean[i] - (knownSum[a + n] - knownSum[a]) / n;
      for (int k = 0; k < n; k++) {
        double turns = hertz * tracks.seconds(a + k);
        int angle = (int) Math.min(ANGLES - 1, ANGLES * (turns - Math.floor(turns)));
        double y = (tracks.octaves(i, k) - level) / growth[a + k];
        sum[angle] += weight[i] * y;
        square[angle] += weight[i] * y * y;
        all[angle] += weight[i];
        count[angle]++;
      }
    }
    List<WowFinding.Angle> turn = new ArrayList<>();
    for (int j = 0; j < ANGLES; j++) {
      if (count[j] > FRAMES_THAT_TELL) {
        double y = sum[j] / all[j];
        double spread = Math.sqrt(Math.max(0, square[j] / all[j] - y * y));
        turn.add(
            new WowFinding.Angle(
                360 * (j + 0.5) / ANGLES,
                scale * y,
                1.96 * scale * spread / Math.sqrt(count[j] / FRAMES_THAT_TELL)));
      }
    }
    return turn;
  }

  private void turn(double hertz) {
    for (int t = 0; t < u.length; t++) {
      double turns = hertz * tracks.seconds(t);
      double angle = 2 * Math.PI * (turns - Math.floor(turns));
      u[t] = growth[t] * StrictMath.cos(angle);
      v[t] = growth[t] * StrictMath.sin(angle);
    }
  }
}
