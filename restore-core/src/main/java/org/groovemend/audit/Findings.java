package org.groovemend.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;

/** What a {@link MeasuredAudit} says, in words and figures. */
final class Findings {
  private static final double LEAST_FILTER_DB = 0.1;
  private static final double COHERENT = 0.9;
  private static final double FILTER_TOP = 0.8;
  private static final double SOFTER_DB = 1;
  private static final double LEAST_BANDS = 3;
  private static final double REST_DBFS = -80;
  private static final double LEAST_PPM = 0.001;

  private final MeasuredAudit m;
  private final AudioFormat original;
  private final long originalFrames;
  private final AudioFormat derivative;
  private final long derivativeFrames;
  private final WordCensus originalWords;
  private final WordCensus derivativeWords;
  private final List<Finding> found = new ArrayList<>();
  private final double share;

  private Findings(
      MeasuredAudit m,
      AudioFormat original,
      long originalFrames,
      WordCensus originalWords,
      AudioFormat derivative,
      long derivativeFrames,
      WordCensus derivativeWords) {
    this.m = m;
    this.original = original;
    this.originalFrames = originalFrames;
    this.originalWords = originalWords;
    this.derivative = derivative;
    this.derivativeFrames = derivativeFrames;
    this.derivativeWords = derivativeWords;
    share = Math.min(1, (double) m.alignment().found() / Math.max(1, m.alignment().passages()));
  }

  static List<Finding> of(
      MeasuredAudit m,
      AudioFormat original,
      long originalFrames,
      WordCensus originalWords,
      AudioFormat derivative,
      long derivativeFrames,
      WordCensus derivativeWords) {
    Findings f =
        new Findings(
            m,
            original,
            originalFrames,
            originalWords,
            derivative,
            derivativeFrames,
            derivativeWords);
    f.speed();
    f.place();
    f.channels();
    f.gain();
    f.depth();
    boolean noise = f.timeVarying();
    f.filter(noise);
    f.levels();
    f.breaks();
    f.ranges();
    f.rest(noise);
    f.found.sort((a, b) -> a.kind().compareTo(b.kind()));
    return List.copyOf(f.found);
  }

  private void add(
      Finding.Kind kind, double confidence, Map<String, Object> figures, String words) {
    found.add(new Finding(kind, words, Math.max(0, Math.min(1, confidence)), figures));
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private static Map<String, Object> figures(Object... pairs) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      map.put((String) pairs[i], pairs[i + 1]);
    }
    return map;
  }

  private String channel(int c) {
    return derivative.channels() == 1 ? "" : c == 0 ? "left: " : "right: ";
  }

  private double seconds(long frame) {
    return derivative.seconds(frame);
  }

  private void speed() {
    Alignment a = m.alignment();
    double ppm = 1e6 * (a.factor() - 1);
    if (Math.abs(ppm) > LEAST_PPM) {
      double doubt = 1e6 * a.factorDoubt();
      add(
          Finding.Kind.SPEED,
          share,
          figures("factor", a.factor(), "ppm", ppm, "doubtPpm", doubt),
          say(
              "It runs %.8f times as fast as the original (%+.3f ppm, standard deviation %.3f ppm; %+.2f cents).",
              a.factor(), ppm, doubt, 1200 * StrictMath.log(a.factor()) / StrictMath.log(2)));
    }
    if (a.wanderSamples() > 0) {
      add(
          Finding.Kind.SPEED,
          0.5,
          figures("wanderSamples", a.wanderSamples()),
          say(
              "Single passages leave the constant speed by up to %.2f samples: the speed wavers, or the passages differ too much to tell.",
              a.wanderSamples()));
    }
    if (original.sampleRateHz() != derivative.sampleRateHz()) {
      add(
          Finding.Kind.RATE,
          1,
          figures(
              "fromHz",
              original.sampleRateHz(),
              "toHz",
              derivative.sampleRateHz(),
              "ratio",
              derivative.sampleRateHz() / (double) original.sampleRateHz() / a.factor(),
              "doubtPpm",
              1e6 * a.factorDoubt()),
          say(
              "The sample rate was converted from %d to %d Hz.",
              original.sampleRateHz(), derivative.sampleRateHz()));
    }
  }

  private void place() {
    Alignment a = m.alignment();
    Alignment.Stretch first = a.stretches().get(0);
    double place = first.lag() + a.part();
    if (place != 0) {
      double seconds = place / derivative.sampleRateHz();
      add(
          Finding.Kind.PLACE,
          share,
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

  private void channels() {
    if (original.channels() == 1 && derivative.channels() == 1) {
      return;
    }
    List<Object> mixes = new ArrayList<>();
    StringBuilder words = new StringBuilder();
    boolean plain = original.channels() == derivative.channels();
    double misfit = 0;
    for (int c = 0; c < m.models().length; c++) {
      Mix mix = m.models()[c].mix();
      plain &= mix.kind() == Mix.Kind.SAME;
      misfit = Math.max(misfit, mix.misfit());
      mixes.add(figures("channel", c, "made", mix.kind().name(), "weights", mix.weights()));
      words.append(words.length() == 0 ? "" : "; ").append(channel(c)).append(mix.kind().words());
      if (mix.kind() == Mix.Kind.BOTH) {
        words.append(say(" (%.4f left, %.4f right)", mix.weights()[0], mix.weights()[1]));
      }
    }
    if (!plain) {
      boolean swapped =
          m.models().length == 2
              && original.channels() == 2
              && m.models()[0].mix().kind() == Mix.Kind.OTHER
              && m.models()[1].mix().kind() == Mix.Kind.OTHER;
      add(
          Finding.Kind.CHANNELS,
          1 - misfit,
          figures("channels", mixes, "swapped", swapped),
          (swapped ? "Left and right are exchanged." : "Its channels are made so: " + words + "."));
    }
  }

  private void gain() {
    List<Object> gains = new ArrayList<>();
    boolean any = false;
    int opposed = 0;
    StringBuilder words = new StringBuilder();
    for (int c = 0; c < m.models().length; c++) {
      double db = m.gainDb()[c];
      boolean exactly = m.models()[c].taps() == null && Math.abs(m.models()[c].gain()) == 1;
      any |= !exactly && Math.abs(db) >= 0.0005;
      gains.add(db);
      opposed += m.models()[c].gain() < 0 ? 1 : 0;
      words.append(c == 0 ? "" : ", ").append(say("%s%+.4f dB", channel(c), db));
    }
    if (opposed > 0) {
      add(
          Finding.Kind.POLARITY,
          share,
          figures("opposedChannels", opposed),
          opposed == m.models().length
              ? "It is upside down: its polarity is reversed."
              : "One channel is upside down, the other not: "
                  + (m.models()[0].gain() < 0 ? "left." : "right."));
    }
    if (any) {
      add(
          Finding.Kind.GAIN,
          share,
          figures("gainDb", gains),
          "Its level was changed by " + words + ".");
    }
  }

  private void depth() {
    boolean pcm = original.coding() == SampleCoding.PCM && derivative.coding() == SampleCoding.PCM;
    if (!pcm) {
      if (original.coding() != derivative.coding()
          || original.containerBits() != derivative.containerBits()) {
        add(
            Finding.Kind.DEPTH,
            1,
            figures("from", words(original), "to", words(derivative)),
            "The words were converted from " + words(original) + " to " + words(derivative) + ".");
      }
      return;
    }
    int from = originalWords.usedBits();
    int to = derivativeWords.usedBits();
    if (from == to && original.containerBits() == derivative.containerBits()) {
      return;
    }
    Model first = m.models()[0];
    double steps = first.floor() / derivativeWords.step(derivative);
    boolean plain =
        first.taps() == null
            && !first.exact()
            && m.alignment().part() == 0
            && m.alignment().factor() == 1
            && original.sampleRateHz() == derivative.sampleRateHz();
    // what median of the error's size a rounding leaves, times 1.4826: uniform 0.371, with one
    // uniform dither 0.434, with two 0.50, cut off 0.741
    String how =
        !plain
            ? ""
            : steps > 0.33 && steps < 0.40
                ? "rounded without dither"
                : steps >= 0.40 && steps < 0.465
                    ? "with dither of one uniform value"
                    : steps >= 0.465 && steps < 0.56
                        ? "with triangular dither"
                        : steps > 0.70 && steps < 0.78
                            ? "cut off, not rounded"
                            : "how is not told by what was left over";
    add(
        Finding.Kind.DEPTH,
        plain && !how.startsWith("how") ? 0.95 : 0.8,
        figures(
            "fromUsedBits",
            from,
            "toUsedBits",
            to,
            "fromContainerBits",
            original.containerBits(),
            "toContainerBits",
            derivative.containerBits(),
            "errorSteps",
            plain ? steps : Double.NaN,
            "how",
            how),
        say(
            "Of the original's words %d of %d bits are in use, of its own %d of %d%s.",
            from,
            original.containerBits(),
            to,
            derivative.containerBits(),
            to < from && !how.isEmpty() ? ": " + how : ""));
  }

  private static String words(AudioFormat f) {
    return f.containerBits() + "-bit " + (f.coding() == SampleCoding.PCM ? "integers" : "floats");
  }

  private boolean timeVarying() {
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
      add(
          Finding.Kind.NOISE_REDUCTION,
          0.5 + 0.5 * Math.min(1, 2.0 * softer / all),
          figures("bandsLowered", softer, "mostDb", most, "mostAtHertz", hertz, "bands", bands),
          say(
              "Soft sound was lowered more than loud sound in %d of %d third octaves, as noise reduction does: most at %.0f Hz, soft %.1f dB, loud %.1f dB.",
              softer, all, hertz, most, loud));
    } else if (limited > all / 2) {
      add(
          Finding.Kind.DYNAMICS,
          0.5 + 0.5 * limited / all,
          figures("bandsLowered", limited, "bands", bands),
          say(
              "Loud sound was lowered more than soft sound in %d of %d third octaves, as a limiter or compressor does.",
              limited, all));
    }
    return noise;
  }

  private void filter(boolean noise) {
    List<Object> bands = new ArrayList<>();
    double most = 0;
    double at = 0;
    int channelAt = 0;
    double coherence = 0;
    int counted = 0;
    double highest = FILTER_TOP * Math.min(original.sampleRateHz(), derivative.sampleRateHz()) / 2;
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
      add(
          Finding.Kind.FILTER,
          coherence / counted,
          figures("mostDb", most, "mostAtHertz", at, "bands", bands),
          say(
              "It was filtered: %s%+.2f dB at %.0f Hz re its gain in the middle, the most of all third octaves that are told%s.",
              channel(channelAt),
              most,
              at,
              noise ? "; a part of that may be the noise reduction" : ""));
    }
  }

  private void levels() {
    List<Object> list = new ArrayList<>();
    long count = 0;
    LevelStretch longest = null;
    for (LevelFollower follower : m.levels()) {
      count += follower.count();
      for (LevelStretch s : follower.stretches()) {
        list.add(
            figures(
                "channel", s.channel(),
                "fromFrame", s.from(),
                "toFrame", s.to(),
                "fromDb", s.fromDb(),
                "toDb", s.toDb()));
        if (longest == null || s.to() - s.from() > longest.to() - longest.from()) {
          longest = s;
        }
      }
    }
    if (longest != null) {
      add(
          Finding.Kind.LEVEL,
          0.9,
          figures("count", count, "stretches", list),
          say(
              "%d stretch%s at another level than the rest, the longest from %.2f to %.2f s (%s%+.2f dB at its beginning, %+.2f dB at its end).",
              count,
              count == 1 ? " is" : "es are",
              seconds(longest.from()),
              seconds(longest.to()),
              channel(longest.channel()),
              longest.fromDb(),
              longest.toDb()));
    }
  }

  private void breaks() {
    List<Alignment.Stretch> all = m.alignment().stretches();
    double ratio = m.alignment().factor() * original.sampleRateHz() / derivative.sampleRateHz();
    long allowed = ratio == 1 && m.alignment().part() == 0 ? 0 : derivative.sampleRateHz() / 1000;
    Alignment.Stretch first = all.get(0);
    Alignment.Stretch last = all.get(all.size() - 1);
    long length = Math.round(originalFrames / ratio);
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
        derivativeFrames,
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
            "insertedSeconds", seconds(put),
            "missingSeconds", seconds(lost));
    String place = where.isEmpty() ? say("at %.4f s", seconds(from)) : where;
    if (lost > allowed) {
      add(
          Finding.Kind.CUT,
          0.95,
          figures,
          say(
              "%.4f s of the original (from %.4f s on) are missing %s%s.",
              seconds(lost),
              seconds(was),
              place,
              put > allowed
                  ? say("; %.4f s of other sound are in their place", seconds(put))
                  : ""));
    } else if (put > allowed || lost < -allowed) {
      add(
          Finding.Kind.INSERTION,
          0.95,
          figures,
          lost < -allowed
              ? say("%.4f s of the original are repeated %s.", seconds(-lost), place)
              : say("%.4f s that are not in the original were put in %s.", seconds(put), place));
    }
  }

  private void ranges() {
    boolean exact = true;
    boolean steady = true;
    for (Model model : m.models()) {
      exact &= model.exact();
      steady &= model.steady();
    }
    boolean varies = found.stream().anyMatch(f -> f.kind() == Finding.Kind.NOISE_REDUCTION);
    double sure = exact ? 1 : steady && !varies ? 0.95 : 0.7;
    DifferenceList list = m.differences();
    range(
        Finding.Kind.LOCAL_CHANGES,
        Difference.Kind.LOCAL,
        sure,
        "%d place%s changed locally, 50 ms long at most, as a repair is%s.");
    range(
        Finding.Kind.LEVEL,
        Difference.Kind.LEVEL,
        sure,
        "%d short stretch%s the same sound at another level%s.");
    range(
        Finding.Kind.REPLACED,
        Difference.Kind.REPLACED,
        sure,
        "%d stretch%s longer than 50 ms other sound than the original%s.");
    range(Finding.Kind.SILENCED, Difference.Kind.SILENCED, sure, "%d stretch%s silenced%s.");
    range(
        Finding.Kind.CLIPPED,
        Difference.Kind.CLIPPED,
        sure,
        "%d place%s clipped: tops of the sound are missing%s.");
  }

  private void range(Finding.Kind kind, Difference.Kind of, double sure, String words) {
    long count = m.differences().counts().getOrDefault(of, 0L);
    if (count == 0) {
      return;
    }
    double peak = Double.NEGATIVE_INFINITY;
    for (Difference d : m.differences().list()) {
      peak = d.kind() == of ? Math.max(peak, d.peakDbfs()) : peak;
    }
    boolean es = words.contains("stretch%s");
    add(
        kind,
        sure,
        figures("count", count, "peakDbfs", peak),
        say(
            words,
            count,
            count == 1 ? (es ? " is" : " is") : es ? "es are" : "s are",
            say("; largest difference %.1f dBFS", peak)));
  }

  private void rest(boolean noise) {
    double rest = Double.NEGATIVE_INFINITY;
    for (double floor : m.floorDbfs()) {
      rest = Math.max(rest, floor);
    }
    double steps =
        derivativeWords.step(derivative) > 0
            ? m.models()[0].floor() / derivativeWords.step(derivative)
            : Double.POSITIVE_INFINITY;
    if (rest > REST_DBFS && steps > 2) {
      add(
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
