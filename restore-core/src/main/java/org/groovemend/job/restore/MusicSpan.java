package org.groovemend.job.restore;

import org.groovemend.leadin.LeadInFinding;

/**
 * Where music lies: between lead-in and run-out, or as far as these are known.
 *
 * @param startFrame 0 if no lead-in is known
 * @param endFrame the length of the side if no run-out is known
 */
record MusicSpan(long startFrame, long endFrame) {

  /**
   * The span of a side.
   *
   * @param found what the survey took for bare groove
   * @param used what was used as bare groove, found or stated; a stated one may lie anywhere and
   *     counts as lead-in only in the first quarter
   */
  static MusicSpan of(LeadInFinding found, LeadInFinding used, long frames) {
    long start = 0;
    if (found.found()) {
      start = found.endFrame();
    } else if (used.found() && used.endFrame() < frames / 4) {
      start = used.endFrame();
    }
    long end = found.runOut() == null ? frames : found.runOut().startFrame();
    return new MusicSpan(Math.min(start, end), end);
  }
}
