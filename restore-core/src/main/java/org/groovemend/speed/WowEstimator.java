package org.groovemend.speed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.rotation.DiscSpeed;

/**
 * Finds the sway of an off-centre hole in the movement of the partials: one sinusoid over the whole
 * side, its depth growing as 1 / radius (cf. S. Godsill, ICASSP 1994, for pitch from partials).
 *
 * <p>The evidence is an F test of the power at the best frequency near a turn against that at
 * frequencies around it, where music moves as it does there (2 and 2 M degrees of freedom, as in D.
 * Thomson, Proc. IEEE 70(9), 1982), times the number of frequencies tried. Nothing else is fitted
 * but twice a turn, on the same terms: vibrato, at five to eight a second, is not looked at.
 */
final class WowEstimator {
  private static final int ROUNDS = 5;
  private static final double NEAR = 0.01;
  private static final int MOST_AROUND = 32;
  private static final int LEAST_AROUND = 5;
  private static final double LN2 = 0.6931471805599453;

  /** Standard error of the share of its radius that a groove is guessed to lose. */
  private static final double GUESS_ERROR = 0.15;

  /**
   * Errors of amplitude and turn over those that the power beside a turn tells: 1.3 to 1.65 on 96
   * simulated sides of unsteady players.
   */
  private static final double WIDER = 1.7;

  /** Less is below what anyone hears (0.03 % in a room: trade, section 2.9) and is left. */
  private static final double LEAST_PEAK = 1e-4;

  private static final double STEEPEST_SHRINK = 0.68;

  private final PartialTracks tracks;
  private final double seconds;
  private final SwayFit fit;
  private final GrooveRadii stated;

  private WowEstimator(PartialTracks tracks, double seconds, GrooveRadii radii) {
    this.tracks = tracks;
    this.seconds = seconds;
    this.stated = radii;
    this.fit = new SwayFit(tracks);
  }

  /**
   * @param playedRpm speed of the turntable as it is stated, or NaN: the standard ones are tried
   * @param radii as stated, or null: those of the commonest disc of the speed
   */
  static WowFinding estimate(
      PartialTracks tracks, double seconds, double playedRpm, GrooveRadii radii) {
    return new WowEstimator(tracks, seconds, radii).run(playedRpm);
  }

  private WowFinding run(double playedRpm) {
    if (tracks.count() < 8) {
      return WowFinding.none(
          Double.NaN, Double.NaN, 1, "no wow can be told: hardly a steady partial is heard");
    }
    List<Double> speeds = new ArrayList<>();
    if (Double.isNaN(playedRpm)) {
      for (DiscSpeed speed : DiscSpeed.values()) {
        speeds.add(speed.rpm());
      }
    } else {
      speeds.add(playedRpm);
    }
    Judged best = null;
    double trials = 0;
    for (double rpm : speeds) {
      trials += 1 + 2 * NEAR * rpm / 60 * seconds;
      Judged judged = judge(rpm);
      if (judged != null && (best == null || judged.logChance < best.logChance)) {
        best = judged;
      }
    }
    if (best == null) {
      return WowFinding.none(
          Double.NaN,
          Double.NaN,
          1,
          "no wow can be told: the side is too short for it, some nine turns are needed");
    }
    double chance = Math.min(1, trials * StrictMath.exp(best.logChance));
    if (chance > WowFinding.MOST_CHANCE || best.peak < LEAST_PEAK) {
      return WowFinding.none(
          best.peak,
          best.peakHalf,
          chance,
          String.format(
              Locale.ROOT,
              "no wow is certain: the best that fits, %.3f %% peak, is too little or may be chance; more than about %.3f %% peak would have been seen",
              100 * best.peak,
              100 * Math.max(LEAST_PEAK, 3 * best.peakHalf)));
    }
    return found(best, chance);
  }

  /**
   * What was found near one speed.
   *
   * @param noise power that chance gives there
   */
  private record Judged(
      SwayFit.Sway sway,
      GrooveRadii radii,
      double shrink,
      boolean fitted,
      double noise,
      double logChance,
      double peak,
      double peakHalf) {}

  private Judged judge(double rpm) {
    double turn = rpm / 60;
    DiscSpeed disc = DiscSpeed.nearest(rpm);
    GrooveRadii radii = stated != null ? stated : new GrooveRadii(disc.outerMm(), disc.innerMm());
    double shrink = radii.shrink();
    fit.forget();
    fit.weigh(false);
    fit.setShrink(shrink, seconds);
    SwayFit.Sway sway = settled(best(turn), turn, false);
    double plain = noise(turn, sway);
    if (Double.isNaN(plain) || !(plain > 0)) {
      return null;
    }
    // evidence is taken with slopes in it: a note that slides is no reason to see a sway
    int around = around(turn).size();
    double f = sway.power() / plain;
    sway = settled(sway, turn, true);
    double beside = noise(turn, sway);
    double noise = beside > 0 ? beside : plain;
    boolean fitted = false;
    if (stated == null) {
      shrink = likeliestShrink(radii.shrink(), sway.hertz(), noise);
      fitted = Math.abs(shrink - radii.shrink()) > 0.02;
      fit.setShrink(shrink, seconds);
      sway = refined(sway.hertz());
    }
    double middle =
        LN2 / PeakFinder.kept(sway.hertz() * tracks.size / tracks.rate) / (1 - shrink / 2);
    return new Judged(
        sway,
        radii,
        shrink,
        fitted,
        noise,
        -around * StrictMath.log1p(f / around),
        middle * sway.amplitude(),
        1.96 * WIDER * middle * Math.sqrt(noise / sway.information()));
  }

  /** Partials are weighed by what is left, until that changes no more. */
  private SwayFit.Sway settled(SwayFit.Sway first, double turn, boolean slides) {
    SwayFit.Sway sway = first;
    for (int round = 0; round < ROUNDS; round++) {
      fit.subtract(sway);
      fit.weigh(slides);
      fit.forget();
      sway = round == 0 && !slides ? best(turn) : refined(sway.hertz());
    }
    return sway;
  }

  /** Mean power beside a turn when the sway is taken off. */
  private double noise(double turn, SwayFit.Sway sway) {
    fit.subtract(sway);
    double noise = noise(turn);
    fit.forget();
    return noise;
  }

  /**
   * Growth inwards as the side itself tells it, as far as it does: few sides fill the area that
   * their kind of disc has, which is taken for a guess with a normal error.
   */
  private double likeliestShrink(double guess, double hertz, double noise) {
    double best = guess;
    double most = Double.NEGATIVE_INFINITY;
    double centre = STEEPEST_SHRINK / 2;
    for (double step = STEEPEST_SHRINK / 16; step > 0.002; step /= 8) {
      for (int i = -8; i <= 8; i++) {
        double s = Math.max(0, Math.min(STEEPEST_SHRINK, centre + i * step));
        fit.setShrink(s, seconds);
        double off = (s - guess) / GUESS_ERROR;
        double likelihood = fit.at(hertz).power() / noise - off * off / 2;
        if (likelihood > most) {
          most = likelihood;
          best = s;
        }
      }
      centre = best;
    }
    return best;
  }

  /** The best of a grid about a turn, then finer. */
  private SwayFit.Sway best(double turn) {
    SwayFit.Sway best = null;
    double step = 1 / (6 * seconds);
    int reach = (int) Math.ceil(NEAR * turn / step);
    for (int i = -reach; i <= reach; i++) {
      SwayFit.Sway one = fit.at(turn + i * Math.min(step, NEAR * turn / reach));
      best = best == null || one.power() > best.power() ? one : best;
    }
    return refined(best.hertz());
  }

  private SwayFit.Sway refined(double hertz) {
    SwayFit.Sway best = fit.at(hertz);
    for (double step = 1 / (8 * seconds); step > 1e-4 / seconds; step /= 3) {
      double centre = best.hertz();
      for (int side = -1; side <= 1; side += 2) {
        SwayFit.Sway one = fit.at(centre + side * step);
        while (one.power() > best.power()) {
          best = one;
          one = fit.at(best.hertz() + side * step);
        }
      }
    }
    return best;
  }

  /** Frequencies beside that of a turn, one line of the side's length apart at least. */
  private List<Double> around(double turn) {
    List<Double> all = new ArrayList<>();
    double width = 0.4 * turn;
    int each = (int) Math.min(MOST_AROUND / 2, width * seconds);
    for (int i = 0; i < each; i++) {
      double part = 0.1 + 0.4 * (i + 0.5) / each;
      all.add(turn * (1 - part));
      all.add(turn * (1 + part));
    }
    return all;
  }

  /** Mean power beside a frequency; NaN if too few places lie there. */
  private double noise(double turn) {
    List<Double> around = around(turn);
    if (around.size() < LEAST_AROUND) {
      return Double.NaN;
    }
    double sum = 0;
    for (double hertz : around) {
      sum += fit.at(hertz).power();
    }
    return sum / around.size();
  }

  private WowFinding found(Judged best, double chance) {
    // the weights of the best speed again
    judge(60 * best.sway.hertz());
    fit.setShrink(best.shrink, seconds);
    fit.forget();
    SwayFit.Sway once = best.sway;
    fit.subtract(once);
    List<Wow.Part> parts = new ArrayList<>();
    double outer = best.radii.outerMm();
    parts.add(part(1, once, outer));
    fit.weigh(false);
    double power = fit.at(2 * once.hertz()).power();
    double noise = noise(2 * once.hertz());
    int around = around(2 * once.hertz()).size();
    double chanceTwice = StrictMath.exp(-around * StrictMath.log1p(power / noise / around));
    fit.weigh(true);
    SwayFit.Sway twice = fit.at(2 * once.hertz());
    if (chanceTwice <= WowFinding.MOST_CHANCE) {
      parts.add(part(2, twice, outer));
    }
    Wow wow = new Wow(1 / once.hertz(), outer, outer * best.shrink / seconds, parts);
    if (parts.size() > 1) {
      fit.subtract(twice);
    }
    List<WowFinding.Angle> turn = fit.turn(once.hertz(), LN2 / (1 - best.shrink / 2));
    double turnHalf = 1.96 * WIDER * hertzError(best) / (once.hertz() * once.hertz());
    return new WowFinding(
        true,
        wow,
        turnHalf,
        best.peak,
        best.peakHalf,
        chance,
        best.fitted,
        turn,
        String.format(
            Locale.ROOT,
            "the pitch sways once a turn of %.4f s by %.3f %% peak at the start and %.3f %% at the end%s, as of a hole %.2f mm off the middle",
            wow.turnSeconds(),
            100 * wow.peak(0),
            100 * wow.peak(seconds),
            parts.size() > 1 ? ", and twice a turn" : "",
            parts.get(0).amplitudeMm()));
  }

  private Wow.Part part(int order, SwayFit.Sway sway, double outer) {
    double scale = outer * LN2 / PeakFinder.kept(sway.hertz() * tracks.size / tracks.rate);
    return new Wow.Part(order, scale * sway.cos(), scale * sway.sin());
  }

  /** Standard error of the frequency by the curvature of the likelihood. */
  private double hertzError(Judged best) {
    fit.forget();
    fit.setShrink(best.shrink, seconds);
    double step = 1 / (12 * seconds);
    double f = best.sway.hertz();
    double bend =
        (2 * fit.at(f).power() - fit.at(f - step).power() - fit.at(f + step).power())
            / (step * step);
    return bend > 0 ? Math.sqrt(best.noise / bend) : NEAR * f;
  }
}
