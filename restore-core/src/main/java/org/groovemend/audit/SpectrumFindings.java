package org.groovemend.audit;

import static org.groovemend.audit.FindingList.figures;
import static org.groovemend.audit.FindingList.say;

import java.util.ArrayList;
import java.util.List;

/** Filters, noise reduction, limiting, and what nothing explains. */
final class SpectrumFindings {
  private static final double LEAST_FILTER_DB = 0.1;
  private static final double COHERENT = 0.9;
  private static final double FILTER_TOP = 0.8;
  private static final double SOFTER_DB = 1;
  private static final double LEAST_BANDS = 3;
  private static final double REST_DBFS = -80;

  private final MeasuredAudit m;
  private final ComparedSides sides;
  private final FindingList found;

  SpectrumFindings(MeasuredAudit m, ComparedSides sides, FindingList found) {
    this.m = m;
    this.sides = sides;
    this.found = found;
  }

  boolean timeVarying() {
    int softer = 0;
    int limited = 0;
    double most = 0;
    double hertz = 0;
    double loud = 0;
    List<Object> bands = new ArrayList<>();
    for (SoftLoud b : m.bands()) {
      bands.add(
          figures("centreHertz", b.centreHertz(), "softDb", b.softDb(), "loudDb", b.loudDb()));
      if (b.softDb() < -SOFTER_DB && b.loudDb() - b.softDb() > SOFTER_DB) {
        softer++;
        if (b.softDb() < most) {
          most = b.softDb();
          hertz = b.centreHertz();
          loud = b.loudDb();
        }
      }
      if (b.loudDb() < -SOFTER_DB / 2 && b.softDb() - b.loudDb() > SOFTER_DB / 2) {
        limited++;
      }
    }
    int all = Math.max(1, m.bands().size());
    boolean noise = softer >= LEAST_BANDS;
    if (noise) {
      found.add(
          Finding.Kind.NOISE_REDUCTION,
          0.5 + 0.5 * Math.min(1, 2.0 * softer / all),
          figures("bandsLowered", softer, "mostDb", most, "mostAtHertz", hertz, "bands", bands),
          say(
              "Soft sound was lowered more than loud sound in %d of %d third octaves, as noise reduction does: most at %.0f Hz, soft %.1f dB, loud %.1f dB.",
              softer, all, hertz, most, loud));
    } else if (limited > all / 2) {
      found.add(
          Finding.Kind.DYNAMICS,
          0.5 + 0.5 * limited / all,
          figures("bandsLowered", limited, "bands", bands),
          say(
              "Loud sound was lowered more than soft sound in %d of %d third octaves, as a limiter or compressor does.",
              limited, all));
    }
    return noise;
  }

  void filter(boolean noise) {
    List<Object> bands = new ArrayList<>();
    double most = 0;
    double at = 0;
    int channelAt = 0;
    double coherence = 0;
    int counted = 0;
    double highest =
        FILTER_TOP
            * Math.min(sides.original().sampleRateHz(), sides.derivative().sampleRateHz())
            / 2;
    for (TransferBand b : m.transfer()) {
      bands.add(
          figures(
              "channel", b.channel(),
              "centreHertz", b.centreHertz(),
              "gainDb", b.gainDb(),
              "coherence", b.coherence()));
      if (b.coherence() > COHERENT && b.centreHertz() < highest) {
        double off = b.gainDb() - m.gainDb()[b.channel()];
        coherence += b.coherence();
        counted++;
        if (Math.abs(off) > Math.abs(most)) {
          most = off;
          at = b.centreHertz();
          channelAt = b.channel();
        }
      }
    }
    if (Math.abs(most) > LEAST_FILTER_DB) {
      found.add(
          Finding.Kind.FILTER,
          coherence / counted,
          figures("mostDb", most, "mostAtHertz", at, "bands", bands),
          say(
              "It was filtered: %s%+.2f dB at %.0f Hz re its gain in the middle, the most of all third octaves that are told%s.",
              sides.channel(channelAt),
              most,
              at,
              noise ? "; a part of that may be the noise reduction" : ""));
    }
  }

  void rest(boolean noise) {
    double rest = Double.NEGATIVE_INFINITY;
    for (double floor : m.floorDbfs()) {
      rest = Math.max(rest, floor);
    }
    double steps =
        sides.derivativeWords().step(sides.derivative()) > 0
            ? m.models()[0].floor() / sides.derivativeWords().step(sides.derivative())
            : Double.POSITIVE_INFINITY;
    if (rest > REST_DBFS && steps > 2) {
      found.add(
          Finding.Kind.UNKNOWN,
          noise ? 0.5 : 0.9,
          figures("restDbfs", rest),
          say(
              "A difference of %.1f dBFS stays all through it%s.",
              rest,
              noise
                  ? "; noise reduction leaves one, but what share of this is its is not known"
                  : " that nothing named here explains: what made it is not known"));
    }
  }
}
