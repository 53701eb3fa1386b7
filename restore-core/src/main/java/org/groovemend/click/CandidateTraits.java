package org.groovemend.click;

import org.groovemend.signal.predict.Autocorrelation;
import org.groovemend.signal.predict.LevinsonDurbin;
import org.groovemend.signal.predict.PredictionFilter;
import org.groovemend.signal.robust.Median;
import org.groovemend.signal.robust.RobustScale;

/** Measures the {@link Trait}s of a candidate. One instance per thread. */
final class CandidateTraits {
  /** Share of a variance added to sums that may vanish. */
  private static final double LEAST = 1e-2;

  /** Share of the error's scale added to levels that may vanish. */
  private static final double TINY = 1e-3;

  private static final double FIT_NOISE = 1e-7;

  private final int span;
  private final int briefOrder;
  private final Autocorrelation autocorrelation;
  private final double[] window;
  private final double[] sumsBefore;
  private final double[] sumsAfter;
  private final double[] modelBefore;
  private final double[] modelAfter;
  private final double[] correlation;
  private final double[] unfilled;
  private final double[] work;

  CandidateTraits(ClickGeometry g) {
    span = g.hop() / 2;
    briefOrder = g.order() / 2;
    autocorrelation = new Autocorrelation(span, briefOrder);
    window = new double[span];
    MidpointHann.fill(window, span);
    sumsBefore = new double[briefOrder + 1];
    sumsAfter = new double[briefOrder + 1];
    modelBefore = new double[briefOrder + 1];
    modelAfter = new double[briefOrder + 1];
    correlation = new double[briefOrder + 1];
    unfilled = new double[g.window()];
    work = new double[4 * g.order()];
  }

  /** By ordinal of {@link Trait}; the traits that need another channel stay 0 without one. */
  double[] measure(Block k, Places places, int i, double rate) {
    double[] t = new double[Trait.COUNT];
    int start = places.start(i);
    int end = places.end(i);
    double scale = places.scale(i);
    change(t, k, start, end, scale);
    errors(t, k, start, end, scale);
    pulse(t, k, start, end, scale);
    company(t, places, i);
    if (k.otherError() != null) {
      channels(t, k, start, end, scale);
    }
    double explained = Math.max(places.explained(i), 1e-3);
    double remainder = Math.max(places.remainder(i), 1e-3);
    double samples = end - start + k.order();
    set(t, Trait.EXPLAINED, log(explained));
    set(t, Trait.REMAINDER, log(remainder));
    set(t, Trait.SHARE, log(explained * explained / (remainder * remainder * samples) + 1e-3));
    set(t, Trait.DURATION, log(1000 * (end - start) / rate));
    set(t, Trait.LEVEL, log(Math.abs(places.amplitude(i)) / (k.level() + TINY * scale) + 1e-6));
    double before = log(Math.max(places.before(i), 0.02));
    double after = log(Math.max(places.after(i), 0.02));
    set(t, Trait.BEFORE, before);
    set(t, Trait.AFTER, after);
    set(t, Trait.RISE, after - before);
    set(t, Trait.PREDICTABLE, log(k.b()[0]));
    return t;
  }

  /** How the sound after the place differs from that before it. */
  private void change(double[] t, Block k, int start, int end, double scale) {
    double[] z = k.filled();
    autocorrelation.compute(z, Math.max(0, start - span), span, window, sumsBefore);
    autocorrelation.compute(z, Math.min(k.size() - span, end), span, window, sumsAfter);
    double tiny = scale * scale * span * 1e-3 + 1e-200;
    sumsBefore[0] = sumsBefore[0] * (1 + FIT_NOISE) + tiny;
    sumsAfter[0] = sumsAfter[0] * (1 + FIT_NOISE) + tiny;
    double errorBefore = LevinsonDurbin.solve(sumsBefore, briefOrder, modelBefore, null);
    double errorAfter = LevinsonDurbin.solve(sumsAfter, briefOrder, modelAfter, null);
    set(t, Trait.BEFORE_ON_AFTER, log(error(modelBefore, sumsAfter) / errorAfter));
    set(t, Trait.AFTER_ON_BEFORE, log(error(modelAfter, sumsBefore) / errorBefore));
    set(t, Trait.RESIDUAL_RISE, log(errorAfter / errorBefore));
    set(t, Trait.POWER_RISE, log(sumsAfter[0] / sumsBefore[0]));
  }

  /** Error energy that a model leaves in sound of the given autocorrelation. */
  private double error(double[] model, double[] sums) {
    PredictionFilter.coefficientCorrelation(model, briefOrder, correlation);
    double s = correlation[0] * sums[0];
    for (int k = 1; k <= briefOrder; k++) {
      s += 2 * correlation[k] * sums[k];
    }
    return Math.max(s, 1e-300);
  }

  private void errors(double[] t, Block k, int start, int end, double scale) {
    double[] x = k.samples();
    double[] z = k.filled();
    double[] a = k.a();
    int order = k.order();
    int to = Math.min(k.size(), end + order);
    double inside = 0;
    double insideFilled = 0;
    double after = 0;
    double afterFilled = 0;
    double most = 0;
    for (int n = start; n < to; n++) {
      double filled = k.error()[n];
      double v = filled;
      for (int l = Math.max(0, n - end + 1); l <= Math.min(order, n - start); l++) {
        v += a[l] * (x[n - l] - z[n - l]);
      }
      unfilled[n] = v;
      most = Math.max(most, Math.abs(v));
      if (n < end) {
        inside += v * v;
        insideFilled += filled * filled;
      } else {
        after += v * v;
        afterFilled += filled * filled;
      }
    }
    double before = 0;
    double beforeFilled = 0;
    int from = Math.max(0, start - order);
    for (int n = from; n < start; n++) {
      double filled = 0;
      for (int l = 0; l <= order && n + l < k.size(); l++) {
        filled += a[l] * z[n + l];
      }
      double v = filled;
      for (int l = start - n; l <= order && n + l < end; l++) {
        v += a[l] * (x[n + l] - z[n + l]);
      }
      before += v * v;
      beforeFilled += filled * filled;
    }
    double variance = scale * scale;
    int m = end - start;
    set(t, Trait.CONFIRMED_AFTER, log((after + variance) / (afterFilled + variance)));
    set(t, Trait.REMAINDER_AFTER, deviation(afterFilled / Math.max(1, to - end), variance));
    set(t, Trait.CONFIRMED_BEFORE, log((before + variance) / (beforeFilled + variance)));
    set(t, Trait.REMAINDER_BEFORE, deviation(beforeFilled / Math.max(1, start - from), variance));
    set(t, Trait.FOUND_INSIDE, deviation(inside / m, variance));
    set(t, Trait.REMAINDER_INSIDE, deviation(insideFilled / m, variance));
    set(t, Trait.SHARP_START, Math.abs(unfilled[start]) / (most + 1e-300));
  }

  private static double deviation(double power, double variance) {
    return 0.5 * log((power + LEAST * variance) / variance);
  }

  /** Uses what {@link #errors} left in {@code unfilled}. */
  private void channels(double[] t, Block k, int start, int end, double ownScale) {
    double[] o = k.otherError();
    int order = k.order();
    int to = Math.min(k.size(), end + order);
    int count = 0;
    for (int n = Math.max(order, start - 2 * order); n < start; n++) {
      work[count++] = Math.abs(o[n]);
    }
    for (int n = to; n < Math.min(k.size(), to + 2 * order); n++) {
      work[count++] = Math.abs(o[n]);
    }
    double scale =
        (count == 0 ? 0 : RobustScale.NORMAL * Median.of(work, 0, count)) + TINY * ownScale;
    double both = 0;
    double other = 0;
    double own = 0;
    for (int n = start; n < to; n++) {
      both += unfilled[n] * o[n];
      other += o[n] * o[n];
      own += unfilled[n] * unfilled[n];
    }
    double coherence = both / Math.sqrt(own * other + 1e-300);
    double least = TINY * ownScale * ownScale;
    double balance = 0.5 * log((other + least) / (own + least));
    set(t, Trait.COHERENCE, coherence);
    set(t, Trait.BALANCE, Math.max(-4, Math.min(4, balance)));
    set(t, Trait.LATERAL, coherence * StrictMath.exp(-Math.min(5, Math.abs(balance))));
    double found = deviation(other / (to - start), scale * scale);
    set(t, Trait.OTHER_CHANNEL, Math.max(-2, Math.min(5, found)));
  }

  private void pulse(double[] t, Block k, int start, int end, double scale) {
    double[] x = k.samples();
    double[] z = k.filled();
    int m = end - start;
    double sum = 0;
    double sizes = 0;
    double first = 0;
    double energy = 0;
    double changes = 0;
    double previous = 0;
    double largest = 0;
    int peak = start;
    for (int n = start; n < end; n++) {
      double d = x[n] - z[n];
      sum += d;
      sizes += Math.abs(d);
      energy += d * d;
      if (n < start + m / 2) {
        first += d * d;
      }
      if (Math.abs(d) > largest) {
        largest = Math.abs(d);
        peak = n;
      }
      changes += (d - previous) * (d - previous);
      previous = d;
    }
    changes += previous * previous;
    set(t, Trait.ONE_SIDED, Math.abs(sum) / (sizes + 1e-300));
    set(t, Trait.PEAK_PLACE, (peak - start + 0.5) / m);
    set(t, Trait.FIRST_HALF, first / (energy + 1e-300));
    set(t, Trait.ROUGHNESS, changes / (energy + 1e-300));
    int from = Math.max(0, start - span / 2);
    int to = Math.min(k.size(), end + span / 2);
    double power = 0;
    for (int n = from; n < to; n++) {
      power += z[n] * z[n];
    }
    set(
        t,
        Trait.LOCAL_LEVEL,
        log((largest + TINY * scale) / (Math.sqrt(power / (to - from)) + TINY * scale)));
  }

  private void company(double[] t, Places places, int self) {
    int near = 0;
    double strongest = 0;
    for (int j = 0; j < places.count(); j++) {
      if (j != self
          && places.start(j) < places.end(self) + span / 2
          && places.end(j) > places.start(self) - span / 2) {
        near++;
        strongest = Math.max(strongest, places.explained(j));
      }
    }
    set(t, Trait.NEIGHBOURS, near);
    set(t, Trait.STRONGEST_NEIGHBOUR, log(strongest / places.explained(self) + 1e-3));
  }

  private static void set(double[] t, Trait trait, double v) {
    t[trait.ordinal()] = v;
  }

  private static double log(double v) {
    return StrictMath.log(v);
  }
}
