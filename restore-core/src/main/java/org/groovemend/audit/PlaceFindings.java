package org.groovemend.audit;

import static org.groovemend.audit.FindingList.figures;
import static org.groovemend.audit.FindingList.say;

import java.util.List;
import java.util.Map;

/**
 * Where the derivative lies in the original, how fast it runs, what is missing and what was put in.
 */
final class PlaceFindings {
  private static final double LEAST_PPM = 0.001;

  private final MeasuredAudit m;
  private final ComparedSides sides;
  private final FindingList found;

  PlaceFindings(MeasuredAudit m, ComparedSides sides, FindingList found) {
    this.m = m;
    this.sides = sides;
    this.found = found;
  }

  void speed() {
    Alignment a = m.alignment();
    double ppm = 1e6 * (a.factor() - 1);
    if (Math.abs(ppm) > LEAST_PPM) {
      double doubt = 1e6 * a.factorDoubt();
      found.add(
          Finding.Kind.SPEED,
          m.alignment().share(),
          figures("factor", a.factor(), "ppm", ppm, "doubtPpm", doubt),
          say(
              "It runs %.8f times as fast as the original (%+.3f ppm, standard deviation %.3f ppm; %+.2f cents).",
              a.factor(), ppm, doubt, 1200 * StrictMath.log(a.factor()) / StrictMath.log(2)));
    }
    if (a.wanderSamples() > 0) {
      found.add(
          Finding.Kind.SPEED,
          0.5,
          figures("wanderSamples", a.wanderSamples()),
          say(
              "Single passages leave the constant speed by up to %.2f samples: the speed wavers, or the passages differ too much to tell.",
              a.wanderSamples()));
    }
    if (sides.original().sampleRateHz() != sides.derivative().sampleRateHz()) {
      found.add(
          Finding.Kind.RATE,
          1,
          figures(
              "fromHz",
              sides.original().sampleRateHz(),
              "toHz",
              sides.derivative().sampleRateHz(),
              "ratio",
              sides.derivative().sampleRateHz()
                  / (double) sides.original().sampleRateHz()
                  / a.factor(),
              "doubtPpm",
              1e6 * a.factorDoubt()),
          say(
              "The sample rate was converted from %d to %d Hz.",
              sides.original().sampleRateHz(), sides.derivative().sampleRateHz()));
    }
  }

  void place() {
    Alignment a = m.alignment();
    Alignment.Stretch first = a.stretches().get(0);
    double place = first.lag() + a.part();
    if (place != 0) {
      double seconds = place / sides.derivative().sampleRateHz();
      found.add(
          Finding.Kind.PLACE,
          m.alignment().share(),
          figures(
              "samples",
              place,
              "doubtSamples",
              a.partDoubtSamples(),
              "milliseconds",
              1e3 * seconds),
          place > 0
              ? say(
                  "Its first frame lies %.4f samples (%.4f s) into the original; standard deviation %.4f samples.",
                  place, seconds, a.partDoubtSamples())
              : say(
                  "The original begins %.4f samples (%.4f s) into it; standard deviation %.4f samples.",
                  -place, -seconds, a.partDoubtSamples()));
    }
  }

  void breaks() {
    List<Alignment.Stretch> all = m.alignment().stretches();
    double ratio =
        m.alignment().factor()
            * sides.original().sampleRateHz()
            / sides.derivative().sampleRateHz();
    long allowed =
        ratio == 1 && m.alignment().part() == 0 ? 0 : sides.derivative().sampleRateHz() / 1000;
    Alignment.Stretch first = all.get(0);
    Alignment.Stretch last = all.get(all.size() - 1);
    long length = Math.round(sides.originalFrames() / ratio);
    gap(
        "at the beginning",
        0,
        first.from(),
        0,
        Math.max(0, first.from() + first.lag()),
        ratio,
        allowed);
    for (int i = 1; i < all.size(); i++) {
      Alignment.Stretch a = all.get(i - 1);
      Alignment.Stretch b = all.get(i);
      gap("", a.to(), b.from(), a.to() + a.lag(), b.from() + b.lag(), ratio, allowed);
    }
    gap(
        "at the end",
        last.to(),
        sides.derivativeFrames(),
        last.to() + last.lag(),
        Math.max(length, last.to() + last.lag()),
        ratio,
        allowed);
  }

  /**
   * What lies between two stretches: derivative frames {@code [from, to)} in the place of the
   * original's {@code [was, until)}, both in the derivative's frames.
   */
  private void gap(
      String where, long from, long to, long was, long until, double ratio, long allowed) {
    long put = to - from;
    long lost = until - was;
    Map<String, Object> figures =
        figures(
            "fromFrame", from,
            "toFrame", to,
            "originalFromFrame", Math.round(was * ratio),
            "originalToFrame", Math.round(until * ratio),
            "insertedSeconds", sides.seconds(put),
            "missingSeconds", sides.seconds(lost));
    String place = where.isEmpty() ? say("at %.4f s", sides.seconds(from)) : where;
    if (lost > allowed) {
      found.add(
          Finding.Kind.CUT,
          0.95,
          figures,
          say(
              "%.4f s of the original (from %.4f s on) are missing %s%s.",
              sides.seconds(lost),
              sides.seconds(was),
              place,
              put > allowed
                  ? say("; %.4f s of other sound are in their place", sides.seconds(put))
                  : ""));
    } else if (put > allowed || lost < -allowed) {
      found.add(
          Finding.Kind.INSERTION,
          0.95,
          figures,
          lost < -allowed
              ? say("%.4f s of the original are repeated %s.", sides.seconds(-lost), place)
              : say(
                  "%.4f s that are not in the original were put in %s.",
                  sides.seconds(put), place));
    }
  }
}
