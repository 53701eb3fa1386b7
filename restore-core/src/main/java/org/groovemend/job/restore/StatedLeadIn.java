package org.groovemend.job.restore;

import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.job.side.Survey;
import org.groovemend.job.side.TimeRange;
import org.groovemend.leadin.LeadInFinding;

/** Where the groove is heard alone, by a person's word if there is one. */
final class StatedLeadIn {

  private StatedLeadIn() {}

  /**
   * The stretch that was stated, or else what the survey found.
   *
   * @param stated null if none was
   * @throws RequestRefusedException if it does not lie within the side
   */
  static LeadInFinding orFound(TimeRange stated, Survey survey, AudioFormat format, long frames) {
    if (stated == null) {
      return survey.leadIn();
    }
    long from = format.frames(stated.fromSeconds());
    long to = format.frames(stated.toSeconds());
    if (to > frames) {
      throw new RequestRefusedException(
          "the stated lead-in ends at "
              + stated.toSeconds()
              + " s, but the side is only "
              + String.format(Locale.ROOT, "%.3f", format.seconds(frames))
              + " s long");
    }
    if (to <= from) {
      throw new RequestRefusedException(
          "the stated lead-in, "
              + stated.fromSeconds()
              + " to "
              + stated.toSeconds()
              + " s, is shorter than a sample");
    }
    return LeadInFinding.stated(from, to, frames);
  }
}
