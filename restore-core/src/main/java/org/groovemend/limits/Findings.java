package org.groovemend.limits;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Gathers findings and judges each by the limits of a profile. */
public final class Findings {

  /** What no treatment brings back, the worst first. */
  private static final List<Measure> LOST_FOR_GOOD =
      List.of(
          Measure.FIXITY,
          Measure.SILENCE_INSIDE,
          Measure.INTERRUPTIONS,
          Measure.REPEATED_TURNS,
          Measure.CLIPPED_IN_MUSIC,
          Measure.OVERLOAD,
          Measure.COARSER_SECONDS,
          Measure.BAND_EDGE,
          Measure.USED_BITS,
          Measure.CODES_MET,
          Measure.HUM,
          Measure.CORRELATION,
          Measure.WALLS);

  private static final Set<Measure> OF_THE_FILE =
      EnumSet.of(Measure.SAMPLE_RATE, Measure.WORD_LENGTH, Measure.METADATA);

  private final LimitProfile profile;
  private final List<Finding> all = new ArrayList<>();

  public Findings(LimitProfile profile) {
    this.profile = profile;
  }

  /** A number; NaN becomes unknown. */
  public Findings number(
      Measure measure, double value, double confidence, String reason, List<Place> places) {
    Limit limit = profile.of(measure);
    boolean unknown = Double.isNaN(value);
    return add(
        measure,
        unknown ? Double.NaN : value,
        unknown ? "unknown" : measure.print(value),
        limit.of(value),
        confidence,
        reason,
        places);
  }

  public Findings number(Measure measure, double value, double confidence, String reason) {
    return number(measure, value, confidence, reason, List.of());
  }

  /** A word out of those that the measure knows. */
  public Findings word(
      Measure measure, String word, double confidence, String reason, List<Place> places) {
    return add(measure, Double.NaN, word, profile.of(measure).of(word), confidence, reason, places);
  }

  /** Something that could not be told. */
  public Findings unknown(Measure measure, String reason) {
    return add(measure, Double.NaN, "unknown", Judgement.UNKNOWN, Double.NaN, reason, List.of());
  }

  /** Something that is as it should be for want of the thing: "no wall in the spectrum". */
  public Findings none(Measure measure, String text, double confidence, String reason) {
    return add(measure, Double.NaN, text, Judgement.FINE, confidence, reason, List.of());
  }

  private Findings add(
      Measure measure,
      double value,
      String text,
      Judgement verdict,
      double confidence,
      String reason,
      List<Place> places) {
    Limit limit = profile.of(measure);
    all.add(
        new Finding(
            measure.key(),
            measure.label(),
            Double.isInfinite(value) ? Double.NaN : value,
            text,
            measure.unit(),
            new Finding.StatedLimit(limit.inWords(), limit.source()),
            verdict,
            confidence,
            reason,
            places));
    return this;
  }

  /** In the order of the measures. */
  public List<Finding> all() {
    return all.stream().sorted(Comparator.comparing((Finding f) -> Measure.ofKey(f.id()))).toList();
  }

  /** The gravest verdict; what could not be told asks for nobody by itself. */
  public static Judgement gravest(List<Finding> findings) {
    Judgement gravest = Judgement.FINE;
    for (Finding finding : findings) {
      if (finding.verdict() != Judgement.UNKNOWN) {
        gravest = gravest.or(finding.verdict());
      }
    }
    return gravest;
  }

  /**
   * How much a finding weighs among others of the same verdict: what is lost for good comes before
   * what can be put right later, and that before what the file says of itself.
   *
   * @param id of the measure
   * @return the lower the weightier
   */
  public static int rank(String id) {
    Measure measure = Measure.ofKey(id);
    int lost = LOST_FOR_GOOD.indexOf(measure);
    int measures = Measure.values().length;
    return lost >= 0
        ? lost
        : measure.ordinal() + (OF_THE_FILE.contains(measure) ? 2 * measures : measures);
  }
}
