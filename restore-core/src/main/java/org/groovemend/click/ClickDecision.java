package org.groovemend.click;

import java.util.ArrayList;
import java.util.List;

/** Which candidates are damage, and the gaps they make. */
final class ClickDecision {
  /** What damage in the other channel adds to the log odds of a place. */
  private static final double SUPPORT = 2.5;

  /** Gaps about a place, both channels together, from which damage counts as dense. */
  static final int DENSE = 3;

  private final ClickCalibration calibration;
  private final int reach;
  private final int widen;
  private final int longest;
  private final int around;
  private final int rate;

  ClickDecision(ClickCalibration calibration, ClickGeometry g, int rate) {
    this.rate = rate;
    this.calibration = calibration;
    this.reach = Math.max(4, g.hop() / 256);
    this.widen = Math.max(1, g.hop() / 1024);
    this.longest = g.longest();
    this.around = g.hop();
  }

  /**
   * Gaps of each channel in order of start, not overlapping.
   *
   * @param known gaps that an earlier look found, which make others about them likelier
   * @param from first frame of the stretch that was looked at
   * @param to its end
   */
  List<List<Gap>> gaps(
      List<List<Candidate>> candidates,
      List<List<Gap>> known,
      ClickDetector detector,
      long from,
      long to) {
    int channels = candidates.size();
    List<List<Gap>> sure = sure(candidates, known);
    if (known.isEmpty() && calibration.turnSeconds() != null) {
      addRecurring(candidates, sure, from, to);
    }
    List<List<Gap>> all = new ArrayList<>();
    for (int c = 0; c < channels; c++) {
      List<Gap> list = new ArrayList<>(sure.get(c));
      if (channels == 2) {
        for (Candidate k : candidates.get(c)) {
          double least = calibration.thresholds().get(c) - company(k, known) - SUPPORT;
          if (k.logOdds() > least
              && k.logOdds() <= least + SUPPORT
              && touches(k, sure.get(1 - c))) {
            list.add(gap(k, least));
          }
        }
        for (Gap g : sure.get(1 - c)) {
          Candidate k = g.strongest();
          Candidate same = touches(k, list) ? null : detector.otherWall(k);
          if (same != null) {
            list.add(gap(same, 0));
          }
        }
        list.sort((p, q) -> Long.compare(p.start(), q.start()));
      }
      all.add(merged(list));
    }
    return all;
  }

  /** Places with evidence enough of their own. */
  private List<List<Gap>> sure(List<List<Candidate>> candidates, List<List<Gap>> known) {
    List<List<Gap>> sure = new ArrayList<>();
    for (int c = 0; c < candidates.size(); c++) {
      List<Gap> list = new ArrayList<>();
      for (Candidate k : candidates.get(c)) {
        double threshold = calibration.thresholds().get(c) - company(k, known);
        if (k.logOdds() > threshold) {
          list.add(gap(k, threshold));
        }
      }
      sure.add(list);
    }
    return sure;
  }

  /** Adds the places that have it with the turntable's. */
  private void addRecurring(
      List<List<Candidate>> candidates, List<List<Gap>> sure, long from, long to) {
    Recurrence recurrence = new Recurrence(calibration.turnSeconds() * rate, rate, sure, from, to);
    for (int c = 0; c < candidates.size(); c++) {
      double threshold = calibration.thresholds().get(c);
      for (Candidate k : candidates.get(c)) {
        double least = threshold - recurrence.evidence(k.start());
        if (k.logOdds() > least && k.logOdds() <= threshold) {
          sure.get(c).add(gap(k, least));
        }
      }
      sure.get(c).sort((p, q) -> Long.compare(p.start(), q.start()));
    }
  }

  /**
   * What damage round about adds to the log odds of a place: where clicks come n times as often,
   * one more is n times as likely beforehand.
   */
  private double company(Candidate k, List<List<Gap>> known) {
    int n = 0;
    for (List<Gap> list : known) {
      for (Gap g : list) {
        if (g.start() < k.end() + around && g.end() > k.start() - around) {
          n++;
        }
      }
    }
    return n < DENSE ? 0 : StrictMath.log(n);
  }

  private Gap gap(Candidate k, double threshold) {
    return new Gap(Math.max(0, k.start() - widen), k.end() + widen, List.of(k), threshold, null);
  }

  private boolean touches(Candidate k, List<Gap> gaps) {
    for (Gap g : gaps) {
      if (g.start() <= k.end() + reach && g.end() > k.start() - reach) {
        return true;
      }
    }
    return false;
  }

  List<Gap> merged(List<Gap> gaps) {
    List<Gap> out = new ArrayList<>();
    for (Gap g : gaps) {
      Gap last = out.isEmpty() ? null : out.get(out.size() - 1);
      if (last != null
          && g.start() <= last.filledTo()
          && Math.max(g.end(), last.end()) - last.start() <= longest) {
        out.set(out.size() - 1, last.with(g));
      } else if (last == null || g.end() > last.end()) {
        out.add(
            last != null && g.start() < last.end()
                ? new Gap(last.end(), g.end(), g.places(), g.threshold(), g.fill())
                : g);
      }
    }
    return out;
  }
}
