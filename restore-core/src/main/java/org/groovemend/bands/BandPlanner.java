package org.groovemend.bands;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** Decides from what was heard, and what a person knows, where a side is cut. */
public final class BandPlanner {

  /** A gap less sure than this is no cut unless a person's list or count wants one there. */
  private static final double SURE = 0.5;

  /** Music may die away below what is heard as music. */
  private static final double POST_ROLL_SECONDS = 1;

  private static final double SHORTEST_END_SECONDS = 0.3;
  private static final double APART_SECONDS = 20;
  private static final double TELLING_DIP_DB = 6;

  private final BandSurvey survey;
  private final BandWish wish;
  private final long preRoll;
  private final long within;
  private final List<String> doubts = new ArrayList<>();
  private LeastLevel least;

  private BandPlanner(BandSurvey survey, BandWish wish) {
    this.survey = survey;
    this.wish = wish;
    this.preRoll = Math.round(wish.preRollSeconds() * survey.sampleRateHz());
    this.within = Math.round(wish.withinSeconds() * survey.sampleRateHz());
  }

  private record Cut(long frame, double confidence, String reason) {}

  /**
   * A plan whose pieces are the whole side.
   *
   * @throws BandListException if the wish does not fit the side; the message is a sentence
   */
  public static BandPlan plan(BandSurvey survey, BandWish wish) {
    if (survey.frames() == 0) {
      throw new BandListException("the side has no samples; there is nothing to cut");
    }
    return new BandPlanner(survey, wish).plan();
  }

  private BandPlan plan() {
    BandList list = wish.list();
    BandList.Times times = list == null ? BandList.Times.NONE : list.times();
    List<Cut> cuts =
        switch (times) {
          case STARTS -> byStarts();
          case DURATIONS -> byDurations();
          case NONE -> bySound();
        };
    long first = wish.exact() ? frame(0) : Math.max(0, survey.musicStart() - preRoll);
    long end = survey.frames();
    long post = Math.round(POST_ROLL_SECONDS * survey.sampleRateHz());
    long last = survey.musicEnd() + post;
    long shortest = Math.round(SHORTEST_END_SECONDS * survey.sampleRateHz());
    boolean runIn =
        wish.endsApart()
            && first > (wish.exact() ? 0 : shortest)
            && (cuts.isEmpty() || first < cuts.get(0).frame());
    boolean runOut =
        wish.endsApart()
            && end - last >= shortest
            && last > (cuts.isEmpty() ? first : cuts.get(cuts.size() - 1).frame());
    List<BandPiece> pieces = new ArrayList<>();
    long at = 0;
    Cut begins = new Cut(0, 1, "the side begins");
    if (runIn) {
      pieces.add(new BandPiece(BandPiece.Kind.RUN_IN, 0, 0, first, "", 1, begins.reason()));
      at = first;
      begins =
          new Cut(
              first, 0.95, wish.exact() ? "as the list says" : "the first sound after the run-in");
    }
    for (int b = 0; b <= cuts.size(); b++) {
      long to = b < cuts.size() ? cuts.get(b).frame() : runOut ? last : end;
      String title = list == null ? "" : list.entries().get(b).title();
      pieces.add(
          new BandPiece(
              BandPiece.Kind.BAND, b + 1, at, to, title, begins.confidence(), begins.reason()));
      at = to;
      begins = b < cuts.size() ? cuts.get(b) : begins;
    }
    if (runOut) {
      pieces.add(
          new BandPiece(
              BandPiece.Kind.RUN_OUT,
              cuts.size() + 2,
              last,
              end,
              "",
              0.9,
              "a second after the last sound"));
    }
    if (!survey.grooveKnown()) {
      doubts.add("Nothing told what the bare groove sounds like, so no gap could be found.");
    } else if (survey.gaps().isEmpty() && cuts.isEmpty()) {
      doubts.add(
          "No gap was found: a single band, or bands that run into each other, as on live sides.");
    }
    return new BandPlan(survey.sampleRateHz(), survey.frames(), pieces, perhaps(cuts), doubts);
  }

  private List<BandPlan.QuietPlace> perhaps(List<Cut> cuts) {
    if (wish.list() != null || wish.count() > 0) {
      return List.of();
    }
    List<Long> taken = new ArrayList<>(cuts.stream().map(Cut::frame).toList());
    taken.add(survey.musicStart());
    taken.add(survey.musicEnd());
    return least().deepest(taken, apart(), preRoll);
  }

  private long apart() {
    double seconds = Math.min(APART_SECONDS, 0.2 * survey.frames() / survey.sampleRateHz());
    return Math.round(seconds * survey.sampleRateHz());
  }

  private LeastLevel least() {
    if (least == null) {
      least = new LeastLevel(survey);
    }
    return least;
  }

  /** Before the next band, but within the gap and behind its first third. */
  private Cut cut(Gap gap) {
    long earliest = gap.startFrame() + gap.frames() / 3;
    return new Cut(Math.max(earliest, gap.endFrame() - preRoll), gap.confidence(), gap.reason());
  }

  private List<Cut> bySound() {
    List<Gap> sure = survey.gaps().stream().filter(g -> g.confidence() >= SURE).toList();
    int wanted = wish.list() == null ? wish.count() : wish.list().entries().size();
    if (wanted == 0 || sure.size() == wanted - 1) {
      return sure.stream().map(this::cut).toList();
    }
    if (wish.list() != null && wish.count() == 0) {
      throw new BandListException(
          String.format(
              Locale.ROOT,
              "the list names %d bands, but %s; give the time of each band with its title, or say"
                  + " --count %d to take the likeliest places",
              wanted,
              sure.isEmpty()
                  ? "no gap was found, which makes one band"
                  : sure.size()
                      + (sure.size() == 1 ? " gap was found (at " : " gaps were found (at ")
                      + String.join(
                          ", ", sure.stream().map(g -> Clock.text(seconds(g.endFrame()))).toList())
                      + "), which makes "
                      + (sure.size() + 1),
              wanted));
    }
    return likeliest(wanted - 1);
  }

  /** As many cuts as are wanted: the surest gaps, then the deepest quiet places. */
  private List<Cut> likeliest(int wanted) {
    List<Gap> gaps = new ArrayList<>(survey.gaps());
    gaps.sort(Comparator.comparingDouble(Gap::confidence).reversed());
    List<Cut> cuts = new ArrayList<>();
    for (Gap gap : gaps.subList(0, Math.min(wanted, gaps.size()))) {
      cuts.add(cut(gap));
    }
    if (cuts.size() < wanted) {
      List<Long> taken = new ArrayList<>(cuts.stream().map(Cut::frame).toList());
      taken.add(survey.musicStart());
      taken.add(survey.musicEnd());
      List<BandPlan.QuietPlace> places =
          new ArrayList<>(least().deepest(taken, apart() / 2, preRoll));
      places.sort(Comparator.comparingDouble(BandPlan.QuietPlace::depthDb).reversed());
      if (places.size() < wanted - cuts.size()) {
        throw new BandListException(
            String.format(
                Locale.ROOT,
                "%d bands are asked for, but only %d places look like joins; give the time of each"
                    + " band",
                wanted + 1,
                places.size() + cuts.size()));
      }
      for (BandPlan.QuietPlace place : places.subList(0, wanted - cuts.size())) {
        cuts.add(quiet(place));
      }
    } else if (gaps.size() > wanted && gaps.get(wanted).confidence() >= SURE) {
      doubts.add(
          String.format(
              Locale.ROOT,
              "More gaps were found than %d bands have; the least certain were left out.",
              wanted + 1));
    }
    cuts.sort(Comparator.comparingLong(Cut::frame));
    return cuts;
  }

  private Cut quiet(BandPlan.QuietPlace place) {
    String reason =
        String.format(
            Locale.ROOT,
            "no gap here; the place of least level, %.0f dB below what is around it",
            place.depthDb());
    doubts.add("At " + Clock.text(seconds(place.frame())) + ": " + reason + ".");
    return new Cut(place.frame(), place.confidence(), reason);
  }

  private long frame(int entry) {
    return Math.round(wish.list().entries().get(entry).startSeconds() * survey.sampleRateHz());
  }

  private double seconds(long frame) {
    return frame / (double) survey.sampleRateHz();
  }

  private void requireWithin(long frame, String what) {
    if (frame >= survey.frames()) {
      throw new BandListException(
          what
              + " "
              + Clock.text(seconds(frame))
              + ", but the side ends at "
              + Clock.text(seconds(survey.frames()))
              + "; correct the list");
    }
  }

  private List<Cut> byStarts() {
    int n = wish.list().entries().size();
    List<Cut> cuts = new ArrayList<>();
    for (int b = 0; b < n; b++) {
      requireWithin(frame(b), "band " + (b + 1) + " of the list begins at");
    }
    for (int b = 1; b < n; b++) {
      long told = frame(b);
      if (wish.exact()) {
        cuts.add(new Cut(told, 1, "as the list says"));
      } else {
        // never nearer to the next band than to this one
        long back = Math.min(within, (told - frame(b - 1)) / 2);
        long on = Math.min(within, ((b + 1 < n ? frame(b + 1) : survey.frames()) - told) / 2);
        cuts.add(near(told - back, told, told + on, cuts));
      }
    }
    return cuts;
  }

  private List<Cut> byDurations() {
    List<BandEntry> entries = wish.list().entries();
    List<Cut> cuts = new ArrayList<>();
    long begins = survey.musicStart();
    for (int b = 0; b + 1 < entries.size(); b++) {
      long length = Math.round(entries.get(b).durationSeconds() * survey.sampleRateHz());
      long told = begins + length;
      requireWithin(told, "by the durations of the list, band " + (b + 1) + " ends at");
      long back = Math.min(within, length / 2);
      Cut cut = near(told - back, told, Math.min(told + within, survey.frames() - 1), cuts);
      cuts.add(cut);
      begins = cut.frame() + preRoll;
    }
    return cuts;
  }

  /** The surest gap near a time, or else the quietest place there, or else the time itself. */
  private Cut near(long from, long told, long to, List<Cut> before) {
    long least = before.isEmpty() ? 0 : before.get(before.size() - 1).frame() + 1;
    Gap best = null;
    for (Gap gap : survey.gaps()) {
      Cut cut = cut(gap);
      if (gap.endFrame() >= from && gap.startFrame() <= to && cut.frame() > least) {
        if (best == null || worth(gap, told) > worth(best, told)) {
          best = gap;
        }
      }
    }
    if (best != null) {
      return cut(best);
    }
    BandPlan.QuietPlace place = least().within(Math.max(from, least), to, preRoll);
    if (place != null && place.depthDb() >= TELLING_DIP_DB && place.frame() > least) {
      return quiet(place);
    }
    String reason = "no gap and no quiet place near; cut at the time of the list";
    doubts.add("At " + Clock.text(seconds(told)) + ": " + reason + ".");
    return new Cut(Math.max(least, told), 0.1, reason);
  }

  /** A sure gap counts for more than one that is nearer by some seconds. */
  private double worth(Gap gap, long told) {
    long away = Math.max(0, Math.max(gap.startFrame() - told, told - gap.endFrame()));
    return gap.confidence() - 0.5 * away / Math.max(1.0, within);
  }
}
