package org.groovemend.batch;

import java.util.List;

/**
 * What came of a run.
 *
 * @param done sides done
 * @param adopted of these, sides whose results were there already
 * @param failed sides that failed, with the reason, in the order in which they did
 * @param left sides that were not begun, or stopped by a person
 * @param seconds by the clock
 * @param stopped why the run ended before its time, or null
 */
public record BatchOutcome(
    int done, int adopted, List<FailedSide> failed, int left, double seconds, String stopped) {

  /** A side and why it failed. */
  public record FailedSide(PlannedSide side, SideFailure failure) {

    /** For people; names the side once. */
    public String sentence() {
      FoundSide found = side.order().found();
      return failure.sentence().contains(found.file().toString())
          ? failure.sentence()
          : found.place() + ": " + failure.sentence();
    }
  }

  public BatchOutcome {
    failed = List.copyOf(failed);
  }
}
