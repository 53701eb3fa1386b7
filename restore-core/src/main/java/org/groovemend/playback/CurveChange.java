package org.groovemend.playback;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.cartridge.ChosenLoading;

/**
 * What the curve stage does to a signal at one rate: takes one curve back, corrects the loading of
 * the pick-up, applies another curve, by recursion. Immutable.
 */
public final class CurveChange {
  private static final double LEAST_HERTZ = 1000;
  private static final double MOST_HERTZ = 200_000;

  private final List<Step> steps = new ArrayList<>();
  private final double gain;

  /** One of them: as one recursion, in sections, and how long it remembers. */
  private record Step(RecursiveFilter filter, List<FilterSection> sections, int settlingFrames) {}

  /**
   * @param parameters curves, speeds and gain
   * @param sampleRateHz of the file
   * @throws IllegalArgumentException if a curve or the loading cannot be realised at this rate, or
   *     the correction of the loading needs more gain than is allowed
   */
  public CurveChange(CurveParameters parameters, int sampleRateHz) {
    PlaybackCurve undo = parameters.undone().curve();
    if (!undo.isFlat()) {
      PlaybackFilter f = design(undo, parameters.undoFactor(), sampleRateHz);
      steps.add(new Step(f.inverse(), f.inverseSections(), f.settlingFrames()));
    }
    ChosenLoading loading = parameters.loaded();
    if (!loading.isNone()) {
      // electronics of the capture, as the curve to undo
      double factor = parameters.undoFactor();
      double half = Math.max(LEAST_HERTZ, 0.5 * sampleRateHz * factor);
      LoadingFilter f =
          LoadingFilter.design(
              loading.correction(parameters.loadingMostDb(), Math.min(half, MOST_HERTZ)),
              factor,
              sampleRateHz);
      steps.add(new Step(f.forward(), f.sections(), f.settlingFrames()));
    }
    PlaybackCurve apply = parameters.applied().curve();
    if (!apply.isFlat()) {
      PlaybackFilter f = design(apply, parameters.applyFactor(), sampleRateHz);
      steps.add(new Step(f.forward(), f.forwardSections(), f.settlingFrames()));
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
    return steps.stream().mapToInt(Step::settlingFrames).sum();
  }

  /** Filters one after another. */
  int steps() {
    return steps.size();
  }

  /**
   * Goes on in [from, to) from what stands before it, without the gain.
   *
   * @param signals input, then the output of each filter
   */
  void continueWith(double[][] signals, int from, int to) {
    for (int i = 0; i < steps.size(); i++) {
      steps.get(i).filter().run(signals[i], signals[i + 1], 0, from, to);
    }
  }

  /** Product of these, without the gain. */
  public List<FilterSection> sections() {
    List<FilterSection> sections = new ArrayList<>();
    for (Step step : steps) {
      sections.addAll(step.sections());
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
