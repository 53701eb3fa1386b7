package org.groovemend.audit;

import static org.groovemend.audit.FindingList.figures;
import static org.groovemend.audit.FindingList.say;

/** Places that differ, summed up by kind. */
final class RangeFindings {
  private final MeasuredAudit m;
  private final FindingList found;

  RangeFindings(MeasuredAudit m, FindingList found) {
    this.m = m;
    this.found = found;
  }

  void ranges() {
    boolean exact = true;
    boolean steady = true;
    for (Model model : m.models()) {
      exact &= model.exact();
      steady &= model.steady();
    }
    boolean varies = found.has(Finding.Kind.NOISE_REDUCTION);
    double sure = exact ? 1 : steady && !varies ? 0.95 : 0.7;
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
    found.add(
        kind,
        sure,
        figures("count", count, "peakDbfs", peak),
        say(
            words,
            count,
            count == 1 ? " is" : es ? "es are" : "s are",
            say("; largest difference %.1f dBFS", peak)));
  }
}
