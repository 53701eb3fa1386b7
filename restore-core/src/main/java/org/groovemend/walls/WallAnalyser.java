package org.groovemend.walls;

import java.io.IOException;
import org.groovemend.signal.delay.CrossSpectrum;
import org.groovemend.stage.RangeReader;

/**
 * Measures the two walls of a side: first the delay in passages spread over it, then, that taken
 * out, the powers of the whole side. What it keeps does not grow with length.
 */
public final class WallAnalyser {
  /** Drift within this many samples of a line's turning is not followed anew. */
  private static final double SAME_DELAY = 1e-4;

  private final RangeReader side;
  private final WallFrames frames;
  private final CrossSpectrum spectrum;
  private final double[] shared;
  private final double[] athwart;
  private final double[] cosine;
  private final double[] sine;
  private double turned = Double.NaN;

  private WallAnalyser(RangeReader side) {
    this.side = side;
    frames = WallFrames.of(side.format().sampleRateHz());
    spectrum = new CrossSpectrum(frames.length());
    shared = new double[frames.length() / 2 + 1];
    athwart = new double[shared.length];
    cosine = new double[shared.length];
    sine = new double[shared.length];
  }

  /**
   * Measures and judges.
   *
   * @param side as captured or as any stage leaves it
   */
  public static WallFinding analyse(RangeReader side) throws IOException {
    return analyse(side, Integer.MAX_VALUE);
  }

  /**
   * The same from some seconds only, spread evenly over the side.
   *
   * @param seconds most that are heard, 1 or more
   */
  public static WallFinding analyse(RangeReader side, int seconds) throws IOException {
    if (side.format().channels() != 2) {
      return WallFinding.bare(
          Verdict.ONE_CHANNEL,
          "The file has "
              + side.format().channels()
              + (side.format().channels() == 1 ? " channel" : " channels")
              + ", not the two walls of a groove.");
    }
    return new WallAnalyser(side).run(seconds);
  }

  private WallFinding run(int seconds) throws IOException {
    if (side.frames() < frames.length()) {
      return WallFinding.bare(
          Verdict.UNDECIDED, "The side is too short to compare its walls: it needs 0.1 s.");
    }
    DelayFinding delay = new DelaySearch(side, frames).run(seconds);
    OctaveBands octaves = frames.octaves();
    WallSlots slots = new WallSlots(octaves.count());
    WallPhase turning = new WallPhase(shared.length);
    int each = frames.framesIn(1);
    long total = (side.frames() - frames.length()) / frames.hop() + 1;
    double[][] x = new double[2][frames.length() + (each - 1) * frames.hop()];
    long passages = (total + each - 1) / each;
    long heard = Math.min(passages, seconds);
    for (long p = 0; p < heard; p++) {
      long f = p * passages / heard * each;
      int n = (int) Math.min(each, total - f);
      long start = f * frames.hop();
      int samples = frames.length() + (n - 1) * frames.hop();
      side.read(start, samples, x);
      spectrum.clear();
      for (int i = 0; i < n; i++) {
        spectrum.add(x[0], x[1], i * frames.hop());
      }
      turn(delay.at(start + samples / 2.0, side.frames()), delay.opposed());
      slots.add(spectrum, shared, octaves);
      turning.add(spectrum, shared, athwart);
    }
    slots.finish();
    return new WallJudge(slots, turning, octaves, delay).judge();
  }

  /** The part that both walls share, without delay and in one sense. */
  private void turn(double delay, boolean opposed) {
    if (!(Math.abs(delay - turned) < SAME_DELAY)) {
      turned = delay;
      for (int k = 0; k < shared.length; k++) {
        double w = 2 * Math.PI * k / frames.length() * delay;
        cosine[k] = StrictMath.cos(w);
        sine[k] = StrictMath.sin(w);
      }
    }
    for (int k = 0; k < shared.length; k++) {
      double real = spectrum.real()[k] * cosine[k] + spectrum.imaginary()[k] * sine[k];
      double imaginary = spectrum.imaginary()[k] * cosine[k] - spectrum.real()[k] * sine[k];
      shared[k] = opposed ? -real : real;
      athwart[k] = opposed ? -imaginary : imaginary;
    }
  }
}
