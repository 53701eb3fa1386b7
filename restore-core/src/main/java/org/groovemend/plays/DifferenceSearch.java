package org.groovemend.plays;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds places where one play differs from the others by more than noise, and tells whose damage it
 * is. The music cancels in the difference of a play from the mean of the others, so a click stands
 * out of noise alone ({@link StandingOut}); whose it is, the music about it tells ({@link
 * DamageJudge}). One instance per thread.
 */
final class DifferenceSearch {
  private static final double LONGEST_SECONDS = 0.05;
  private static final double BRIEF_SECONDS = 0.5e-3;

  /** Evidence from which on the damaged play is sure: twenty to one. */
  private static final double SURE = 3;

  /** Deviations by which the other play must hold damage too to be called damaged. */
  private static final double BOTH = 4;

  private final int longest;
  private final int brief;
  private final StandingOut standing;
  private final DamageJudge judge;
  private final double[] d;

  /**
   * @param most frames of the longest stretch
   */
  DifferenceSearch(int rate, int most) {
    longest = (int) (LONGEST_SECONDS * rate);
    brief = (int) (BRIEF_SECONDS * rate);
    standing = new StandingOut(rate, most, longest);
    judge = new DamageJudge(rate, longest);
    d = new double[most];
  }

  /**
   * Looks through a stretch.
   *
   * @param x by play and channel; damage that is found is overwritten in it
   * @param from first frame that counts
   * @param to end of those that count
   * @param first frame number of index 0
   */
  List<Place> find(double[][][] x, int from, int to, long first) {
    List<SpanGroup> groups = groups(x, from, to);
    List<Judged> judged = new ArrayList<>();
    for (SpanGroup group : groups) {
      Judged one = judge(x, group, from, to);
      one.clear(x);
      judged.add(one);
    }
    List<Place> found = new ArrayList<>();
    for (Judged one : judged) {
      for (int c = 0; c < x[0].length; c++) {
        if (one.group.holds(c)) {
          found.add(one.place(c, first));
        }
      }
    }
    if (x[0].length == 2) {
      briefOnes(found);
    }
    found.sort(
        (s, t) ->
            s.start() == t.start()
                ? Integer.compare(s.channel(), t.channel())
                : Long.compare(s.start(), t.start()));
    return found;
  }

  /** Places, those that meet both channels at once together, in order. */
  private List<SpanGroup> groups(double[][][] x, int from, int to) {
    int channels = x[0].length;
    List<SpanGroup> alone = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      List<int[]> spans = new ArrayList<>();
      for (int p = 0; p < (x.length == 2 ? 1 : x.length); p++) {
        difference(x, c, p, from, to);
        spans.addAll(standing.find(d, from, to));
      }
      spans.sort((s, t) -> Integer.compare(s[0], t[0]));
      int end = -1;
      for (int[] span : spans) {
        if (span[0] >= end) {
          int[] starts = new int[channels];
          int[] ends = new int[channels];
          starts[c] = span[0];
          ends[c] = span[1];
          alone.add(new SpanGroup(starts, ends));
          end = span[1];
        }
      }
    }
    alone.sort((s, t) -> Integer.compare(s.start(), t.start()));
    List<SpanGroup> groups = new ArrayList<>();
    for (SpanGroup one : alone) {
      SpanGroup last = groups.isEmpty() ? null : groups.get(groups.size() - 1);
      if (last != null && last.meets(one) && one.end() - last.start() <= 2 * longest) {
        groups.set(groups.size() - 1, last.and(one));
      } else {
        groups.add(one);
      }
    }
    return groups;
  }

  private void difference(double[][][] x, int c, int p, int from, int to) {
    double share = 1.0 / (x.length - 1);
    for (int i = from; i < to; i++) {
      double others = 0;
      for (int q = 0; q < x.length; q++) {
        others += q == p ? 0 : x[q][c][i];
      }
      d[i] = x[p][c][i] - share * others;
    }
  }

  private Judged judge(double[][][] x, SpanGroup group, int from, int to) {
    double[] evidence = new double[x.length];
    double[] extra = new double[x.length];
    judge.judge(x, group, from, to, evidence, extra);
    double[] peak = new double[x[0].length];
    for (int c = 0; c < x[0].length; c++) {
      if (!group.holds(c)) {
        continue;
      }
      for (int p = 0; p < x.length; p++) {
        difference(x, c, p, group.start(c), group.end(c));
        for (int i = group.start(c); i < group.end(c); i++) {
          peak[c] = Math.max(peak[c], Math.abs(d[i]));
        }
      }
    }
    return new Judged(group, evidence, extra, peak);
  }

  /**
   * What is known of a place.
   *
   * @param evidence by play: logarithm of how much likelier it is damaged there than sound
   * @param extra by play: evidence that the play has as much again of the difference as damage
   * @param peak largest difference by channel
   */
  private record Judged(SpanGroup group, double[] evidence, double[] extra, double[] peak) {

    /** Damaged sound is to tell nothing about the places behind it. */
    void clear(double[][][] x) {
      int best = 0;
      for (int p = 1; p < x.length; p++) {
        best = evidence[p] < evidence[best] ? p : best;
      }
      for (int c = 0; c < x[0].length; c++) {
        for (int p = 0; p < x.length; p++) {
          if (evidence[p] > 0 && p != best && group.holds(c)) {
            int start = group.start(c);
            System.arraycopy(x[best][c], start, x[p][c], start, group.end(c) - start);
          }
        }
      }
    }

    Place place(int channel, long first) {
      int plays = evidence.length;
      double[] whose = evidence.clone();
      if (plays == 2) {
        // with two, damage is in one or the other
        whose[0] = (evidence[0] - evidence[1]) / 2;
        whose[1] = -whose[0];
      }
      int damaged = 0;
      int most = 0;
      double least = Double.POSITIVE_INFINITY;
      boolean everywhere = true;
      for (int p = 0; p < plays; p++) {
        damaged |= whose[p] > 0 ? 1 << p : 0;
        most = whose[p] > whose[most] ? p : most;
        least = Math.min(least, Math.abs(whose[p]));
        everywhere &= whose[p] > 0;
      }
      if (damaged == 0) {
        damaged = 1 << most;
      }
      // of two plays, the one that has less of it has some nevertheless
      everywhere |= plays == 2 && Math.min(extra[0], extra[1]) < -BOTH;
      int source = -1;
      for (int p = plays - 1; p >= 0 && !everywhere; p--) {
        source = (damaged >> p & 1) == 0 ? p : source;
      }
      return new Place(
          channel,
          first + group.start(channel),
          first + group.end(channel),
          damaged,
          source,
          peak[channel],
          least > SURE,
          false);
    }
  }

  private void briefOnes(List<Place> found) {
    for (int i = 0; i < found.size(); i++) {
      Place one = found.get(i);
      if (one.everywhere() || one.end() - one.start() > brief) {
        continue;
      }
      for (Place other : found) {
        if (other.channel() != one.channel()
            && other.damaged() == one.damaged()
            && other.start() < one.end()
            && one.start() < other.end()
            && other.end() - other.start() <= brief) {
          found.set(i, one.asBrief());
          break;
        }
      }
    }
  }
}
