package org.groovemend.playback;

import java.util.ArrayList;
import java.util.List;

/**
 * What the curve stage does to a signal at one rate: takes one curve back, applies another, by
 * recursion. Immutable.
 */
public final class CurveChange {
  private final List<Step> steps = new ArrayList<>();
  private final double gain;

  /** One curve, applied or undone. */
  private record Step(PlaybackFilter curve, boolean undo) {
    RecursiveFilter filter() {
      return undo ? curve.inverse() : curve.forward();
    }
  }

  /**
   * @param parameters curves, speeds and gain
   * @param sampleRateHz of the file
   * @throws IllegalArgumentException if a curve cannot be realised at this rate
   */
  public CurveChange(CurveParameters parameters, int sampleRateHz) {
    PlaybackCurve undo = parameters.undone().curve();
    if (!undo.isFlat()) {
      steps.add(new Step(design(undo, parameters.undoFactor(), sampleRateHz), true));
    }
    PlaybackCurve apply = parameters.applied().curve();
    if (!apply.isFlat()) {
      steps.add(new Step(design(apply, parameters.applyFactor(), sampleRateHz), false));
    }
    gain = StrictMath.pow(10, parameters.gainDb() / 20);
  }

  /** Unit gain stays at what is 1 kHz at the speed the curve belongs to. */
  private static PlaybackFilter design(PlaybackCurve curve, double factor, int rate) {
    return factor == 1
        ? PlaybackFilter.design(curve, rate)
        : PlaybackFilter.design(curve.scaled(factor), rate, 1000 / factor);
  }

  /** Frames before a stretch after which what lies further back counts for nothing. */
  public int settlingFrames() {
    return steps.stream().mapToInt(step -> step.curve().settlingFrames()).sum();
  }

  /** Product of these, without the gain. */
  public List<FilterSection> sections() {
    List<FilterSection> sections = new ArrayList<>();
    for (Step step : steps) {
      sections.addAll(
          step.undo() ? step.curve().inverseSections() : step.curve().forwardSections());
    }
    return sections;
  }

  /** As a factor. */
  public double gain() {
    return gain;
  }

  /** Gain in dB at a frequency, with the gain of the stage. */
  public double gainDb(double cyclesPerSample) {
    double db = 20 * StrictMath.log10(gain);
    for (Step step : steps) {
      db += step.filter().gainDb(cyclesPerSample);
    }
    return db;
  }

  /**
   * Treats {@code x[0, to)} from rest and gives the part from {@code from} on.
   *
   * @param x samples, not modified
   * @param a work array of at least {@code to}
   * @param b the same
   * @param out out: {@code to - from} samples from index 0
   */
  public void apply(double[] x, int from, int to, double[] a, double[] b, double[] out) {
    double[] in = x;
    double[] result = x;
    for (Step step : steps) {
      result = in == a ? b : a;
      step.filter().fromRest(in, result, 0, to);
      in = result;
    }
    for (int i = from; i < to; i++) {
      out[i - from] = gain * result[i];
    }
  }
}
