package org.groovemend.walls;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.signal.delay.DelayLikelihood;
import org.groovemend.stage.RangeReader;

/**
 * Measures the delay between the walls in passages of a second, spread evenly over the side, by
 * maximum likelihood ({@link DelayLikelihood}).
 */
public final class DelaySearch {
  /** Passages read of a long side. */
  static final int MOST_PASSAGES = 240;

  /** Longest delay that is looked for: a tip turned by 30 degrees makes some 0.1 ms. */
  static final double LONGEST_SECONDS = 1e-3;

  private static final double LOW_HERTZ = 200;
  private static final double HIGH_HERTZ = 20_000;

  /** Passages that tell less are left out. */
  private static final double MOST_DOUBT_SAMPLES = 1;

  private final RangeReader side;
  private final WallFrames frames;
  private final int firstBin;
  private final int lastBin;
  private final CrossSpectrum sum;
  private final List<Passage> passages = new ArrayList<>();

  /** What one passage tells. */
  private record Passage(double middle, DelayLikelihood told) {}

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
    return run(MOST_PASSAGES);
  }

  /** From no more than some passages. */
  DelayFinding run(int mostPassages) throws IOException {
    int most = frames.framesIn(1);
    long possible = (side.frames() - frames.length()) / frames.hop() + 1;
    if (side.frames() < frames.length()) {
      return DelayFinding.none();
    }
    // near a second each, so that a short side is read whole
    long whole = Math.max(1, Math.round((double) possible / most));
    int each = (int) (possible / whole);
    int count = (int) Math.min(Math.min(MOST_PASSAGES, mostPassages), whole);
    int samples = frames.length() + (each - 1) * frames.hop();
    double[][] x = new double[2][samples];
    for (int p = 0; p < count; p++) {
      long start = (p * whole / count) * each * frames.hop();
      side.read(start, samples, x);
      sum.clear();
      for (int f = 0; f < each; f++) {
        sum.add(x[0], x[1], f * frames.hop());
      }
      Passage passage = weighted(start + samples / 2.0);
      if (passage != null) {
        passages.add(passage);
      }
    }
    return passages.isEmpty() ? DelayFinding.none() : found();
  }

  private Passage weighted(double middle) {
    DelayLikelihood told = new DelayLikelihood(frames.length(), firstBin, lastBin);
    return told.weigh(sum.first(), sum.second(), sum.real(), sum.imaginary(), sum.frames())
        ? new Passage(middle, told)
        : null;
  }

  private DelayFinding found() {
    DelayLikelihood all = new DelayLikelihood(frames.length(), firstBin, lastBin);
    passages.forEach(p -> all.add(p.told));
    int lag = all.nearest((int) Math.ceil(LONGEST_SECONDS * frames.rate()));
    boolean opposed = all.height(lag) < 0;
    double delay = all.refine(lag, opposed);
    List<PassageDelay> told = new ArrayList<>();
    for (Passage p : passages) {
      double doubt = p.told.bound();
      if (doubt < MOST_DOUBT_SAMPLES) {
        told.add(new PassageDelay(p.middle / frames.rate(), p.told.refine(delay, opposed), doubt));
      }
    }
    return DelayDrift.fit(
        delay, all.bound(), opposed, told, (double) side.frames() / frames.rate());
  }
}
