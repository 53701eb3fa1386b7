package org.groovemend.audit;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.groovemend.resample.ConstantRatio;
import org.groovemend.resample.Resampled;
import org.groovemend.stage.RangeReader;

/** Lays the derivative on the original: speed, place, and where the place jumps. */
final class Aligner {
  private static final double PASSAGE_SECONDS = 0.4;

  /** Bears a speed that is wrong by a thousandth. */
  private static final double SHORT_SECONDS = 0.1;

  /** Lags of neighbours that differ by more, frames, are a jump; less is drift. */
  private static final long JUMP = 3;

  /** Share of the passages that must lie beside others, or it is another recording. */
  private static final double AGREE = 0.2;

  private static final int ROUNDS = 5;

  /** Change of the lag over the side, frames, that is left to the part of a frame. */
  private static final double SETTLED = 0.4;

  private static final double WIDEST = 1.12;
  private static final double COARSE_STEP = 0.003;
  private static final double FINE_STEP = 0.0004;
  private static final double STANDS_OUT = 4;
  private static final double LEAST_DRIFT = 0.02;

  /** Frames over the side; at 10 kHz and 44.1 kHz less than -60 dB of the sound. */
  private static final double LEAST_CHANGE = 0.0005;

  private static final int FINE_ROUNDS = 3;

  private final RangeReader original;
  private final RangeReader derivative;
  private final OnsetTrack originalOnsets;
  private final OnsetTrack derivativeOnsets;
  private final OnsetSearch search;
  private final int rate;

  Aligner(RangeReader original, RangeReader derivative) throws IOException {
    this.original = original;
    this.derivative = derivative;
    rate = derivative.format().sampleRateHz();
    double highest = Math.min(rate, original.format().sampleRateHz()) / 2.0;
    originalOnsets = OnsetTrack.of(original, highest);
    derivativeOnsets = OnsetTrack.of(derivative, highest);
    search = new OnsetSearch(originalOnsets, (int) (10 * OnsetTrack.PER_SECOND * WIDEST));
  }

  /** The original at the derivative's rate, run so many times as fast. */
  static RangeReader timeline(RangeReader original, int rate, double factor) {
    return timeline(original, rate, factor, 0);
  }

  /** The same, so many of its frames later. */
  static RangeReader timeline(RangeReader original, int rate, double factor, double part) {
    ConstantRatio ratio = ConstantRatio.of(original.format().sampleRateHz(), rate, factor);
    ShiftedRatio map = new ShiftedRatio(ratio, part * ratio.steepest());
    return map.identity() ? original : new Resampled(original, map, rate);
  }

  /** Null if the derivative is nowhere in the original. */
  Alignment run() throws IOException {
    double factor = 1;
    Pairing pairing = null;
    List<Passage> passages = List.of();
    for (double seconds : new double[] {PASSAGE_SECONDS, SHORT_SECONDS}) {
      PassageTrack track = track(factor, pairing, seconds);
      passages = track.run();
      if (agree(passages)) {
        pairing = track.pairing();
        break;
      }
    }
    if (pairing == null) {
      for (double guess : guesses()) {
        PassageTrack track = track(guess, null, SHORT_SECONDS);
        passages = track.run();
        if (agree(passages)) {
          factor = guess;
          pairing = track.pairing();
          break;
        }
      }
      if (pairing == null) {
        return null;
      }
    }
    for (int round = 0; round < ROUNDS; round++) {
      double slope = slope(groups(passages));
      if (Math.abs(slope) * derivative.frames() < SETTLED) {
        break;
      }
      double next = factor * (1 + slope);
      List<Passage> again = track(next, pairing, PASSAGE_SECONDS).run();
      if (again.size() < passages.size() / 2) {
        break;
      }
      factor = next;
      passages = again;
    }
    return fine(factor, pairing, passages);
  }

  /**
   * Whether enough passages lie beside others: single ones are found by chance in sound that
   * repeats itself.
   */
  private boolean agree(List<Passage> passages) {
    if (passages.isEmpty()) {
      return false;
    }
    int looked = PassageTrack.count(derivative);
    int beside = 0;
    for (List<Passage> group : groups(passages)) {
      beside += group.size() > 2 || looked < 6 ? group.size() : 0;
    }
    return beside >= AGREE * looked;
  }

  private PassageTrack track(double factor, Pairing pairing, double seconds) {
    return new PassageTrack(
        timeline(original, rate, factor),
        factor,
        derivative,
        derivativeOnsets,
        search,
        pairing,
        seconds);
  }

  /** Speeds at which onsets agree best, best first. */
  private List<Double> guesses() {
    List<double[]> scored = new ArrayList<>();
    for (double f = 1 / WIDEST; f <= WIDEST; f *= 1 + COARSE_STEP) {
      scored.add(new double[] {likeness(f), f});
    }
    for (double f : new double[] {0.5, 2, 27 / 20.0, 20 / 27.0}) {
      scored.add(new double[] {likeness(f), f});
    }
    scored.sort(Comparator.comparingDouble(s -> -s[0]));
    List<Double> guesses = new ArrayList<>();
    for (int i = 0; i < Math.min(3, scored.size()); i++) {
      double best = scored.get(i)[1];
      double most = -1;
      for (double f = scored.get(i)[1] * (1 - COARSE_STEP);
          f <= scored.get(i)[1] * (1 + COARSE_STEP);
          f *= 1 + FINE_STEP) {
        double l = likeness(f);
        if (l > most) {
          most = l;
          best = f;
        }
      }
      guesses.add(best);
    }
    return guesses;
  }

  private double likeness(double factor) {
    int length = Math.min(derivativeOnsets.length(), 8 * OnsetTrack.PER_SECOND);
    double sum = 0;
    for (int part = 1; part <= 3; part++) {
      int from = (int) ((long) (derivativeOnsets.length() - length) * part / 4);
      List<OnsetSearch.Place> places = search.find(derivativeOnsets, from, length, factor, 1);
      sum += places.isEmpty() ? 0 : places.get(0).likeness();
    }
    return sum / 3;
  }

  /** Passages between jumps; a single one that disagrees with both neighbours is left out. */
  private static List<List<Passage>> groups(List<Passage> passages) {
    List<List<Passage>> groups = new ArrayList<>();
    List<Passage> group = new ArrayList<>();
    for (Passage p : passages) {
      if (!group.isEmpty()
          && Math.abs(p.lag() - group.get(group.size() - 1).lag()) > allowed(group, p)) {
        groups.add(group);
        group = new ArrayList<>();
      }
      group.add(p);
    }
    groups.add(group);
    // strays: alone between two groups
    List<List<Passage>> kept = new ArrayList<>();
    for (int i = 0; i < groups.size(); i++) {
      List<Passage> one = groups.get(i);
      boolean stray = one.size() == 1 && groups.size() > 1;
      if (stray) {
        continue;
      }
      List<Passage> before = kept.isEmpty() ? null : kept.get(kept.size() - 1);
      if (before != null
          && Math.abs(one.get(0).lag() - before.get(before.size() - 1).lag())
              <= allowed(before, one.get(0))) {
        before.addAll(one);
      } else {
        kept.add(new ArrayList<>(one));
      }
    }
    return kept.isEmpty() ? groups : kept;
  }

  /** A drift of a thousandth is no jump as long as it goes on. */
  private static long allowed(List<Passage> group, Passage next) {
    Passage last = group.get(group.size() - 1);
    if (group.size() < 3) {
      return JUMP + (next.frame() - last.frame()) / 500;
    }
    Passage first = group.get(Math.max(0, group.size() - 6));
    double per = (last.lag() - first.lag()) / (double) (last.frame() - first.frame());
    return JUMP + Math.round(1.5 * Math.abs(per) * (next.frame() - last.frame()));
  }

  /** Common slope of all groups, least squares about each one's middle. */
  private static double slope(List<List<Passage>> groups) {
    double above = 0;
    double below = 0;
    for (List<Passage> group : groups) {
      double x = 0;
      double y = 0;
      for (Passage p : group) {
        x += p.frame();
        y += p.lag();
      }
      x /= group.size();
      y /= group.size();
      for (Passage p : group) {
        above += (p.frame() - x) * (p.lag() - y);
        below += (p.frame() - x) * (p.frame() - x);
      }
    }
    return below > 0 ? above / below : 0;
  }

  private Alignment fine(double factor, Pairing pairing, List<Passage> passages)
      throws IOException {
    double speed = factor;
    double doubt = Double.POSITIVE_INFINITY;
    for (int round = 0; ; round++) {
      List<Alignment.Stretch> stretches = stretches(groups(passages), speed, pairing);
      PartOfFrame part =
          PartOfFrame.of(timeline(original, rate, speed), derivative, pairing, stretches);
      doubt = part.slopeDoubt();
      double change = Math.abs(part.slope()) * derivative.frames();
      double next =
          Math.abs(part.slope()) > STANDS_OUT * doubt ? speed * (1 + part.slope()) : speed;
      // a speed of exactly one is far likelier than one beside it
      double off = Math.abs(next - 1);
      boolean one = off < STANDS_OUT * doubt || off * derivative.frames() < LEAST_DRIFT;
      next = one ? 1 : next;
      if (round < FINE_ROUNDS && next != speed && (one || change > LEAST_CHANGE)) {
        speed = next;
        passages = track(speed, pairing, PASSAGE_SECONDS).run();
        continue;
      }
      boolean opposed = passages.stream().filter(Passage::opposed).count() * 2 > passages.size();
      int looked = PassageTrack.count(derivative);
      return new Alignment(
          speed,
          doubt,
          part.samples(),
          part.doubt(),
          part.wander(),
          opposed,
          pairing,
          stretches,
          looked,
          passages.size());
    }
  }

  /** Groups with their ends: as far as the original reaches, and cut where one fits better. */
  private List<Alignment.Stretch> stretches(
      List<List<Passage>> groups, double factor, Pairing pairing) throws IOException {
    RangeReader timeline = timeline(original, rate, factor);
    long[] lags = new long[groups.size()];
    for (int g = 0; g < lags.length; g++) {
      long[] sorted = groups.get(g).stream().mapToLong(Passage::lag).sorted().toArray();
      lags[g] = sorted[sorted.length / 2];
    }
    List<Alignment.Stretch> stretches = new ArrayList<>();
    long from = Math.max(0, -lags[0]);
    for (int g = 0; g < lags.length; g++) {
      long reach = Math.min(derivative.frames(), timeline.frames() - lags[g]);
      long to = reach;
      long next = reach;
      if (g + 1 < lags.length) {
        List<Passage> here = groups.get(g);
        long last = here.get(here.size() - 1).frame();
        long first = groups.get(g + 1).get(0).frame() + Math.round(PASSAGE_SECONDS * rate);
        long cut =
            new CutSearch(timeline, derivative, pairing)
                .find(last, Math.min(derivative.frames(), first), lags[g], lags[g + 1]);
        to = Math.min(reach, cut);
        // frames put in between belong to no part of the original
        next = Math.max(cut + Math.max(0, lags[g] - lags[g + 1]), -lags[g + 1]);
      }
      if (to > from) {
        stretches.add(new Alignment.Stretch(from, to, lags[g]));
      }
      from = next;
    }
    return stretches;
  }
}
