package org.groovemend.plays;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import org.groovemend.signal.robust.Median;
import org.groovemend.stage.Crew;
import org.groovemend.stage.RangeReader;

/** Brings a play onto the time base of another, or says why it is none of the same performance. */
final class Aligner {
  /** Less than this in common tells nothing. */
  static final double LEAST_SECONDS = 5;

  /** Median correlation of louder passages below which waves do not agree. */
  static final double LEAST_LIKENESS = 0.3;

  /**
   * Of the passages as loud as the middle one that tells, how many must tell at least. Plays of one
   * performance: nearly all, however noisy; of one tune: a tenth, whose notes fit by chance.
   */
  private static final double LEAST_TOLD = 0.5;

  /** Passes, each over what the one before has left. */
  private static final AnchorPass[] PASSES = {
    new AnchorPass(0.4, 3, 80, 1200, 0.09),
    new AnchorPass(0.12, 3, 100, 4000, 8e-3),
    new AnchorPass(0.07, 2, 100, 12_000, 1e-3),
    new AnchorPass(0.07, 2, 100, 16_000, 0.3e-3),
    new AnchorPass(0.07, 2, 100, 16_000, 0.2e-3),
    new AnchorPass(0.07, 2, 100, 16_000, 0.15e-3)
  };

  private static final int FIRST_AGAINST_NOISE = 4;

  private static final double[] GATES_SECONDS = {4e-3, 3e-3, 0.6e-3, 0.25e-3, 0.2e-3, 0.15e-3};

  /** How fast a swing the first pass follows, whose passages are long. */
  private static final double[] FOLLOWED_HERTZ = {0.7, 0, 0, 0, 0, 0};

  private final RangeReader reference;
  private final Loudness loudness;
  private final Crew crew;

  /**
   * @param reference for several threads, as the plays are
   */
  Aligner(RangeReader reference, Crew crew) throws IOException {
    this.reference = reference;
    this.crew = crew;
    this.loudness = Loudness.of(reference);
  }

  Alignment align(RangeReader play) throws IOException, NotOnePerformanceException {
    CoarseSearch.Finding coarse = new CoarseSearch(loudness, Loudness.of(play)).run();
    if (!coarse.found()) {
      throw new NotOnePerformanceException(
          String.format(
              Locale.ROOT,
              "only %d of %d passages are found again in order",
              coarse.agreeing(),
              coarse.passages()));
    }
    int rate = reference.format().sampleRateHz();
    double here = reference.frames() / (double) rate;
    double there = play.frames() / (double) play.format().sampleRateHz();
    double from = Math.max(0, -coarse.offsetSeconds() / coarse.ratio());
    double to = Math.min(here, (there - coarse.offsetSeconds()) / coarse.ratio());
    if (to - from < LEAST_SECONDS) {
      throw new NotOnePerformanceException(
          String.format(
              Locale.ROOT,
              "they have only %.1f s in common, and %.0f s are needed",
              Math.max(0, to - from),
              LEAST_SECONDS));
    }
    Alignment now =
        new Alignment(
            coarse.offsetSeconds(),
            coarse.ratio(),
            SmoothCurve.zero(),
            1,
            from,
            to,
            false,
            0,
            0,
            0,
            0);
    double[] ones = new double[reference.format().channels()];
    Arrays.fill(ones, 1);
    int opposed = -1;
    LineNoise noise = null;
    double told = 0;
    for (int p = 0; p < PASSES.length; p++) {
      Alignment before = now;
      Supplier<RangeReader> aligned =
          () -> new AlignedPlay(play, before, rate, reference.frames(), ones);
      LineNoise found = new LineNoise(PASSES[p].length(rate));
      // noise is known once nothing is left of delays, and frames are as long
      LineNoise known = p >= FIRST_AGAINST_NOISE ? noise : null;
      List<Double> levels = new ArrayList<>();
      List<Anchor> anchors =
          PASSES[p].run(reference, aligned, from, to, opposed, known, found, levels, crew);
      noise = found;
      told = told(anchors, levels);
      if (anchors.size() < 8) {
        throw new NotOnePerformanceException("no passage of the one is like the other");
      }
      if (opposed < 0) {
        opposed = opposed(anchors) ? 1 : 0;
      }
      RobustFit fit =
          RobustFit.of(
              doubted(anchors), now.delay(), from, to, GATES_SECONDS[p], FOLLOWED_HERTZ[p]);
      now =
          new Alignment(
              coarse.offsetSeconds(),
              coarse.ratio(),
              fit.curve(),
              fit.scale(),
              from,
              to,
              opposed == 1,
              fit.followHertz(),
              anchors.size(),
              likeness(anchors, opposed == 1),
              fit.scatterSeconds());
    }
    if (told < LEAST_TOLD) {
      throw new NotOnePerformanceException(
          String.format(
              Locale.ROOT,
              "their waves do not agree (in %.0f %% of the louder passages; plays of one"
                  + " performance in nearly all)",
              100 * told));
    }
    if (!(now.likeness() >= LEAST_LIKENESS)) {
      throw new NotOnePerformanceException(
          String.format(
              Locale.ROOT,
              "their waves do not agree (correlation %.2f; plays of one performance reach %.1f and"
                  + " more)",
              now.likeness(),
              LEAST_LIKENESS));
    }
    return now;
  }

  /**
   * Doubts by the noise that is in each passage: a loud click of one play leaves far more unshared
   * than the noise that all doubts were reckoned from, and turns the delay of its passage.
   */
  private static List<Anchor> doubted(List<Anchor> anchors) {
    double[] apart = anchors.stream().mapToDouble(Aligner::apart).toArray();
    double middle = Math.max(1e-300, Median.of(apart.clone(), 0, apart.length));
    List<Anchor> doubted = new ArrayList<>();
    for (int i = 0; i < apart.length; i++) {
      Anchor a = anchors.get(i);
      double more = Math.sqrt(Math.max(1, apart[i] / middle));
      doubted.add(
          new Anchor(
              a.seconds(), a.delaySeconds(), a.doubtSeconds() * more, a.likeness(), a.level()));
    }
    return doubted;
  }

  /** Power that the other play does not share. */
  private static double apart(Anchor a) {
    return a.level() * (1 / Math.max(1e-6, a.likeness() * a.likeness()) - 1);
  }

  /** Share that tells of the passages that are as loud as the middle one of those that tell. */
  private static double told(List<Anchor> anchors, List<Double> levels) {
    double[] all = anchors.stream().mapToDouble(Anchor::level).toArray();
    if (all.length == 0) {
      return 0;
    }
    double middle = Median.of(all, 0, all.length);
    double loud = levels.stream().filter(l -> l >= middle).count();
    return anchors.stream().filter(a -> a.level() >= middle).count() / loud;
  }

  private static boolean opposed(List<Anchor> anchors) {
    double sum = 0;
    for (Anchor a : anchors) {
      sum += a.likeness() / a.doubtSeconds();
    }
    return sum < 0;
  }

  /** Median correlation of the louder half. */
  private static double likeness(List<Anchor> anchors, boolean opposed) {
    double[] levels = anchors.stream().mapToDouble(Anchor::level).toArray();
    double middle = Median.of(levels, 0, levels.length);
    double[] some =
        anchors.stream().filter(a -> a.level() >= middle).mapToDouble(Anchor::likeness).toArray();
    double likeness = Median.of(some, 0, some.length);
    return opposed ? -likeness : likeness;
  }
}
