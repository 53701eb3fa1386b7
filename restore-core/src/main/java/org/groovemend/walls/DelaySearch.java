package org.groovemend.walls;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.fft.RealFft;
import org.groovemend.stage.RangeReader;

/**
 * Measures the delay between the walls in passages of a second, spread evenly over the side.
 *
 * <p>Each line of a passage's cross spectrum has a phase whose variance is (1 - c) / (2 n c), c the
 * squared coherence and n the frames (Carter 1987); its inverse is its weight, which makes the peak
 * of the weighted correlation the maximum-likelihood estimate (Knapp and Carter 1976). The bound on
 * the variance is the inverse sum of weight times squared angular frequency.
 */
public final class DelaySearch {
  /** Passages read of a long side. */
  static final int MOST_PASSAGES = 240;

  /** Longest delay that is looked for: a tip turned by 30 degrees makes some 0.1 ms. */
  static final double LONGEST_SECONDS = 1e-3;

  private static final double LOW_HERTZ = 200;
  private static final double HIGH_HERTZ = 20_000;

  /** No line counts more than if it stood 30 dB over the noise: nothing fits better than that. */
  private static final double MOST_COHERENCE = 0.999;

  /** Lines averaged on each side for the coherence. */
  private static final int REACH = 2;

  /** Independent lines among them: Hann's noise bandwidth is 1.5. */
  private static final double LINES = (2 * REACH + 1) / 1.5;

  /** Of frames that overlap by half: squared correlation 1/36 with each neighbour. */
  private static final double FRAMES_ALIKE = 1 + 2.0 / 36;

  /** Passages that tell less are left out. */
  private static final double MOST_DOUBT_SAMPLES = 1;

  private static final int STEPS = 12;
  private static final double NEGLIGIBLE_SAMPLES = 1e-7;

  private final RangeReader side;
  private final WallFrames frames;
  private final int firstBin;
  private final int lastBin;
  private final CrossSpectrum sum;
  private final List<Passage> passages = new ArrayList<>();

  /** Weighted cross spectrum and weights of one passage, lines from {@code firstBin} on. */
  private record Passage(double middle, double[] real, double[] imaginary, double[] weight) {}

  DelaySearch(RangeReader side, WallFrames frames) {
    this.side = side;
    this.frames = frames;
    double binHertz = (double) frames.rate() / frames.length();
    firstBin = (int) Math.ceil(LOW_HERTZ / binHertz);
    lastBin = (int) Math.min(HIGH_HERTZ / binHertz, 0.45 * frames.length());
    sum = new CrossSpectrum(frames.length());
  }

  /**
   * Delay of the second channel behind the first.
   *
   * @param pair two channels
   */
  public static DelayFinding of(RangeReader pair) throws IOException {
    return new DelaySearch(pair, WallFrames.of(pair.format().sampleRateHz())).run();
  }

  DelayFinding run() throws IOException {
    int most = frames.framesIn(1);
    long possible = (side.frames() - frames.length()) / frames.hop() + 1;
    if (side.frames() < frames.length()) {
      return DelayFinding.none();
    }
    // near a second each, so that a short side is read whole
    long whole = Math.max(1, Math.round((double) possible / most));
    int each = (int) (possible / whole);
    int count = (int) Math.min(MOST_PASSAGES, whole);
    int samples = frames.length() + (each - 1) * frames.hop();
    double[][] x = new double[2][samples];
    for (int p = 0; p < count; p++) {
      long start = (p * whole / count) * each * frames.hop();
      side.read(start, samples, x);
      sum.clear();
      for (int f = 0; f < each; f++) {
        sum.add(x, f * frames.hop());
      }
      Passage passage = weighted(start + samples / 2.0);
      if (passage != null) {
        passages.add(passage);
      }
    }
    return passages.isEmpty() ? DelayFinding.none() : found();
  }

  private Passage weighted(double middle) {
    int n = lastBin - firstBin + 1;
    Passage p = new Passage(middle, new double[n], new double[n], new double[n]);
    double independent = Math.max(1, sum.frames() / FRAMES_ALIKE);
    double averaged = independent * LINES;
    // all lines together tell no more than lines of frames that do not overlap
    double told = (double) sum.frames() * frames.hop() / frames.length();
    boolean any = false;
    for (int i = 0; i < n; i++) {
      double left = 0;
      double right = 0;
      double re = 0;
      double im = 0;
      for (int k = firstBin + i - REACH; k <= firstBin + i + REACH; k++) {
        left += sum.left[k];
        right += sum.right[k];
        re += sum.real[k];
        im += sum.imaginary[k];
      }
      double power = left * right;
      if (!(power > 0)) {
        continue;
      }
      double shared = re * re + im * im;
      // unrelated walls show a coherence of one over the number averaged
      double coherence = (shared / power - 1 / averaged) / (1 - 1 / averaged);
      if (!(coherence > 0)) {
        continue;
      }
      coherence = Math.min(coherence, MOST_COHERENCE);
      double weight = 2 * told * coherence / (1 - coherence);
      double size = Math.sqrt(shared) / (2 * REACH + 1);
      p.weight[i] = weight;
      p.real[i] = weight * sum.real[firstBin + i] / size;
      p.imaginary[i] = weight * sum.imaginary[firstBin + i] / size;
      any = true;
    }
    return any ? p : null;
  }

  private double omega(int i) {
    return 2 * Math.PI * (firstBin + i) / frames.length();
  }

  private DelayFinding found() {
    int n = lastBin - firstBin + 1;
    Passage all = new Passage(0, new double[n], new double[n], new double[n]);
    for (Passage p : passages) {
      for (int i = 0; i < n; i++) {
        all.real[i] += p.real[i];
        all.imaginary[i] += p.imaginary[i];
        all.weight[i] += p.weight[i];
      }
    }
    int lag = nearest(all);
    boolean opposed = height(all, lag) < 0;
    double delay = refine(all, lag, opposed);
    double bound = bound(all);
    List<PassageDelay> told = new ArrayList<>();
    for (Passage p : passages) {
      double doubt = bound(p);
      if (doubt < MOST_DOUBT_SAMPLES) {
        told.add(new PassageDelay(p.middle / frames.rate(), refine(p, delay, opposed), doubt));
      }
    }
    return DelayDrift.fit(delay, bound, opposed, told, (double) side.frames() / frames.rate());
  }

  /** The whole number of samples at which the weighted correlation is largest in magnitude. */
  private int nearest(Passage p) {
    double[] x = new double[frames.length()];
    for (int i = 0; i < p.real.length; i++) {
      x[2 * (firstBin + i)] = p.real[i];
      x[2 * (firstBin + i) + 1] = p.imaginary[i];
    }
    new RealFft(x.length).inverse(x);
    int most = (int) Math.ceil(LONGEST_SECONDS * frames.rate());
    int best = 0;
    double largest = Math.abs(x[0]);
    for (int d = 1; d <= most; d++) {
      // the right wall d behind turns phases forward: its peak lies at -d
      double behind = Math.abs(x[x.length - d]);
      double before = Math.abs(x[d]);
      if (Math.max(behind, before) > largest) {
        largest = Math.max(behind, before);
        best = behind > before ? d : -d;
      }
    }
    return best;
  }

  private double height(Passage p, double delay) {
    double sum = 0;
    for (int i = 0; i < p.real.length; i++) {
      double turn = omega(i) * delay;
      sum += p.real[i] * StrictMath.cos(turn) + p.imaginary[i] * StrictMath.sin(turn);
    }
    return sum;
  }

  /** Newton's steps to the top; each at most half a sample, all of them at most two. */
  private double refine(Passage p, double from, boolean opposed) {
    double d = from;
    for (int round = 0; round < STEPS; round++) {
      double slope = 0;
      double bend = 0;
      for (int i = 0; i < p.real.length; i++) {
        if (p.weight[i] == 0) {
          continue;
        }
        double w = omega(i);
        double c = StrictMath.cos(w * d);
        double s = StrictMath.sin(w * d);
        double real = p.real[i] * c + p.imaginary[i] * s;
        double imaginary = p.imaginary[i] * c - p.real[i] * s;
        slope += w * imaginary;
        bend += w * w * real;
      }
      if (opposed) {
        slope = -slope;
        bend = -bend;
      }
      if (!(bend > 0)) {
        // no top here: a small step uphill
        d += slope > 0 ? 0.1 : slope < 0 ? -0.1 : 0;
      } else {
        double step = slope / bend;
        d += Math.max(-0.5, Math.min(0.5, step));
        if (Math.abs(step) < NEGLIGIBLE_SAMPLES) {
          break;
        }
      }
      d = Math.max(from - 2, Math.min(from + 2, d));
    }
    return d;
  }

  private double bound(Passage p) {
    double information = 0;
    for (int i = 0; i < p.weight.length; i++) {
      double w = omega(i);
      information += w * w * p.weight[i];
    }
    return 1 / Math.sqrt(information);
  }
}
