package org.groovemend.bands;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.leadin.LeadInFinding;

/**
 * Finds the stretches of a side in which the groove alone is heard.
 *
 * <p>The groove noise is learned from lead-in and run-out, or, where there are none, from the
 * quietest steady stretch; then from the gaps found with it, since the noise changes towards the
 * middle of the disc; then the gaps are looked for anew.
 */
final class GapSearch {

  /** Shortest stretch that is called a gap, and the shortest that the floor is learned from. */
  private static final double SHORTEST_SECONDS = 0.5;

  private static final double LEARNED_SECONDS = 0.8;

  /** Sound shorter than this, between two stretches of groove, is a pop and no band. */
  private static final double ISLAND_SECONDS = 0.7;

  private static final double HANDLING_SECONDS = 1;

  private static final double FIRST_SLACK_DB = 4;
  static final double SLACK_DB = 2;
  private static final double QUIETEST_SECONDS = 0.6;
  private static final double ENDS_SECONDS = 30;
  private static final double SHAPE_DB = 2.5;
  private static final double DEAD_DB = 6;
  private static final double EQUIPMENT_DB = 8;
  private static final double DOUBTFUL = 0.7;

  /** The floor is told by rows from here on; below are rumble and hum. */
  static final double TELLING_HZ = 280;

  private final CellLevels levels;
  private final LeadInFinding leadIn;
  private final double cellSeconds;
  private GrooveFloor floor;
  private String basis = "nothing tells what the bare groove sounds like";
  private double trust;
  private float[] weight = {};
  private List<int[]> known = List.of();
  private final List<int[]> stretches = new ArrayList<>();

  GapSearch(CellLevels levels, LeadInFinding leadIn, int rate) {
    this.levels = levels;
    this.leadIn = leadIn;
    this.cellSeconds = levels.hop() / (double) rate;
    this.floor = new GrooveFloor(levels);
  }

  /** Stretches of cells {@code [from, to)} in which the groove alone is heard, in order. */
  List<int[]> find() {
    List<int[]> references = references();
    if (references.isEmpty()) {
      return stretches;
    }
    known = references;
    learn(references);
    hear(FIRST_SLACK_DB);
    for (int round = 0; round < 2; round++) {
      List<int[]> places = new ArrayList<>(references);
      for (int[] s : stretches) {
        int[] inner = inner(s);
        if (inner[1] - inner[0] >= LEARNED_SECONDS / cellSeconds && alike(inner, FIRST_SLACK_DB)) {
          places.add(inner);
        }
      }
      learn(places);
      hear(SLACK_DB);
    }
    SharpOnset sharp = new SharpOnset(levels, floor, cellSeconds);
    for (int[] s : stretches) {
      if (s[1] < levels.cells()) {
        s[1] = Math.max(s[0] + 1, sharp.of(s[0], s[1]));
      }
    }
    return stretches;
  }

  GrooveFloor floor() {
    return floor;
  }

  /** What the groove noise was learned from, in words for people. */
  String basis() {
    return basis;
  }

  /** 0 to 1: how far that can be trusted. */
  double trust() {
    return trust;
  }

  float[] weight() {
    return weight;
  }

  private List<int[]> references() {
    List<int[]> found = new ArrayList<>();
    List<String> names = new ArrayList<>();
    LeadInFinding.RunOut runOut = leadIn.runOut();
    if (leadIn.found()) {
      add(found, leadIn.startFrame(), leadIn.endFrame());
      names.add("lead-in");
    }
    if (runOut != null) {
      add(found, runOut.startFrame(), runOut.endFrame());
      names.add("run-out");
    }
    if (found.size() == 2) {
      // far quieter than the other end: the equipment alone, before the stylus came down or after
      double more = loudness(found.get(0)) - loudness(found.get(1));
      if (Math.abs(more) > EQUIPMENT_DB) {
        int wrong = more > 0 ? 1 : 0;
        found.remove(wrong);
        names.remove(wrong);
      }
    }
    int[] quietest = quietest();
    boolean doubtful = leadIn.confidence() < DOUBTFUL || !leadIn.found();
    if (found.size() == 1
        && quietest != null
        && doubtful
        && (runOut == null || runOut.confidence() < DOUBTFUL)
        && loudness(found.get(0)) < loudness(quietest) - 2 * EQUIPMENT_DB) {
      found.clear();
      names.clear();
    }
    if (!found.isEmpty()) {
      basis = "groove noise is that of the " + String.join(" and the ", names);
      trust = 1;
      if (quietest != null) {
        learn(found);
        if (alike(quietest, 3 * FIRST_SLACK_DB)) {
          found.add(quietest);
        }
      }
    } else if (quietest != null) {
      found.add(quietest);
      basis =
          String.format(
              java.util.Locale.ROOT,
              "no lead-in or run-out was found; groove noise is taken from the quietest steady"
                  + " stretch, at %.1f s",
              quietest[0] * cellSeconds);
      trust = 0.85;
    }
    return found;
  }

  /** Mean level of the telling rows, where hum does not hide the rest. */
  private double loudness(int[] place) {
    GrooveFloor here = new GrooveFloor(levels);
    here.learn(place[0], place[1]);
    return here.mean(place[0], TELLING_HZ);
  }

  private void add(List<int[]> found, long from, long to) {
    int first = levels.cellAt(from) + 2;
    int last = levels.cellAt(to) - 2;
    if (last - first >= 8) {
      found.add(new int[] {first, last});
    }
  }

  private void learn(List<int[]> places) {
    List<int[]> sorted = new ArrayList<>(places);
    sorted.sort((a, b) -> Integer.compare(a[0], b[0]));
    floor = new GrooveFloor(levels);
    int last = -1;
    for (int[] place : sorted) {
      if (place[0] > last) {
        floor.learn(place[0], place[1]);
        last = place[1];
      }
    }
  }

  /** Whether a stretch has the spectrum of the floor, but for its loudness as a whole. */
  private boolean alike(int[] place, double slackDb) {
    GrooveFloor here = new GrooveFloor(levels);
    here.learn(place[0], place[1]);
    int middle = (place[0] + place[1]) / 2;
    double louder = here.mean(middle, TELLING_HZ) - floor.mean(middle, TELLING_HZ);
    if (Math.abs(louder) > slackDb) {
      return false;
    }
    double[] a = new double[levels.rows()];
    double[] b = new double[levels.rows()];
    here.at(middle, a);
    floor.at(middle, b);
    for (int r = 0; r < a.length; r++) {
      if (levels.above(r, TELLING_HZ)
          && Math.abs(a[r] - b[r] - louder) > SHAPE_DB + here.chance(r)) {
        return false;
      }
    }
    return true;
  }

  /**
   * How far the row that stands out most lies above what all other places say of the groove noise,
   * dB: mean over the later half of a stretch, where the band before has died away.
   */
  double standsOut(int[] stretch) {
    int from = (stretch[0] + stretch[1]) / 2;
    int to = Math.max(from + 1, stretch[1] - 2);
    GrooveFloor others = new GrooveFloor(levels);
    List<int[]> places = new ArrayList<>(known);
    stretches.stream().map(GapSearch::inner).forEach(places::add);
    places.sort((a, b) -> Integer.compare(a[0], b[0]));
    int last = -1;
    for (int[] p : places) {
      boolean same = p[0] < stretch[1] && p[1] > stretch[0];
      if (!same && p[0] > last && p[1] - p[0] >= LEARNED_SECONDS / cellSeconds) {
        others.learn(p[0], p[1]);
        last = p[1];
      }
    }
    if (others.empty()) {
      return 0;
    }
    double[] base = new double[levels.rows()];
    double[] above = new double[levels.rows()];
    for (int i = from; i < to; i++) {
      others.at(i, base);
      for (int r = 0; r < base.length; r++) {
        above[r] += (levels.level(r, i) - base[r]) / (to - from);
      }
    }
    double[] telling =
        java.util.stream.IntStream.range(0, above.length)
            .filter(r -> levels.above(r, TELLING_HZ))
            .mapToDouble(r -> above[r])
            .sorted()
            .toArray();
    double common = telling[telling.length / 3];
    double most = 0;
    for (int r = 0; r < above.length; r++) {
      if (levels.above(r, TELLING_HZ)) {
        double doubt = 2 * others.chance(r) / Math.sqrt((to - from) / 4.0);
        most = Math.max(most, above[r] - common - doubt);
      }
    }
    return most;
  }

  private void hear(double slackDb) {
    weight = MusicEvidence.of(levels, floor, slackDb);
    boolean[] music = MusicEvidence.states(weight);
    stretches.clear();
    int start = -1;
    for (int i = 0; i <= music.length; i++) {
      boolean quiet = i < music.length && !music[i];
      if (quiet && start < 0) {
        start = i;
      } else if (!quiet && start >= 0) {
        join(start, i);
        start = -1;
      }
    }
    // the stylus comes down, or goes up
    if (!stretches.isEmpty() && stretches.get(0)[0] < HANDLING_SECONDS / cellSeconds) {
      stretches.get(0)[0] = 0;
    }
    int last = stretches.size() - 1;
    if (last >= 0 && music.length - stretches.get(last)[1] < HANDLING_SECONDS / cellSeconds) {
      stretches.get(last)[1] = music.length;
    }
    int shortest = (int) Math.ceil(SHORTEST_SECONDS / cellSeconds);
    stretches.removeIf(s -> s[1] - s[0] < shortest && s[0] > 0 && s[1] < music.length);
  }

  private void join(int from, int to) {
    if (!stretches.isEmpty()) {
      int[] before = stretches.get(stretches.size() - 1);
      int longEnough = (int) Math.ceil(SHORTEST_SECONDS / 2 / cellSeconds);
      if (from - before[1] < ISLAND_SECONDS / cellSeconds
          && (before[0] == 0 || before[1] - before[0] >= longEnough)
          && to - from >= longEnough) {
        before[1] = to;
        return;
      }
    }
    stretches.add(new int[] {from, to});
  }

  private static int[] inner(int[] s) {
    int margin = Math.max(2, (s[1] - s[0]) / 6);
    return new int[] {s[0] + margin, s[1] - margin};
  }

  /** The quietest steady stretch that is not the equipment alone; null if there is none. */
  private int[] quietest() {
    int n = levels.cells();
    int length = (int) Math.ceil(QUIETEST_SECONDS / cellSeconds);
    if (n < 3 * length) {
      return null;
    }
    double[] box = boxes(length);
    int ends = (int) Math.min(ENDS_SECONDS / cellSeconds, 0.15 * n);
    double interior = Double.POSITIVE_INFINITY;
    for (int i = ends; i + length < n - ends; i++) {
      interior = Math.min(interior, box[i]);
    }
    for (int attempt = 0; attempt < 12; attempt++) {
      int best = -1;
      for (int i = 0; i + length <= n; i++) {
        boolean dead = (i < ends || i + length > n - ends) && box[i] < interior - DEAD_DB;
        if (!dead && (best < 0 || box[i] < box[best])) {
          best = i;
        }
      }
      if (best < 0 || box[best] == Double.POSITIVE_INFINITY) {
        return null;
      }
      if (steady(best, best + length)) {
        return new int[] {best, best + length};
      }
      for (int i = Math.max(0, best - length); i < Math.min(box.length, best + length); i++) {
        box[i] = Double.POSITIVE_INFINITY;
      }
    }
    return null;
  }

  /** Mean level of the telling rows over some cells from each on; infinite where one is silent. */
  private double[] boxes(int length) {
    int n = levels.cells();
    double[] sum = new double[n + 1];
    int[] silent = new int[n + 1];
    for (int i = 0; i < n; i++) {
      double all = 0;
      int rows = 0;
      for (int r = 0; r < levels.rows(); r++) {
        if (levels.above(r, TELLING_HZ)) {
          all += levels.level(r, i);
          rows++;
        }
      }
      sum[i + 1] = sum[i] + all / Math.max(1, rows);
      silent[i + 1] = silent[i] + (levels.silent(i) ? 1 : 0);
    }
    double[] box = new double[n];
    for (int i = 0; i < n; i++) {
      boolean whole = i + length <= n && silent[i + length] == silent[i];
      box[i] = whole ? (sum[i + length] - sum[i]) / length : Double.POSITIVE_INFINITY;
    }
    return box;
  }

  private boolean steady(int from, int to) {
    GrooveFloor here = new GrooveFloor(levels);
    here.learn(from, to);
    double[] mean = new double[levels.rows()];
    here.at(from, mean);
    int wild = 0;
    int rows = 0;
    for (int r = 0; r < mean.length; r++) {
      if (!levels.above(r, TELLING_HZ)) {
        continue;
      }
      rows++;
      double square = 0;
      for (int i = from; i < to; i++) {
        double d = levels.level(r, i) - mean[r];
        square += d * d;
      }
      if (Math.sqrt(square / (to - from)) > 1.5 * here.chance(r) + 1.3) {
        wild++;
      }
    }
    return wild <= rows / 8;
  }
}
