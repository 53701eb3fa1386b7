package org.groovemend.report;

import java.util.List;

/**
 * What one treatment did.
 *
 * @param name in the trade's words: "Clicks"
 * @param ran false if it was left out or found nothing to go by
 * @param sentence what it did, or why it did not run
 * @param settings those that matter, with units
 * @param edits number of logged edits; -1 for a treatment that may touch any sample
 * @param samplesChanged over all channels
 * @param secondsChanged samples changed over channels over sample rate
 * @param removedRmsDbfs RMS of what was taken away, over the whole side; NaN or negative infinity
 *     for nothing
 * @param removedPeakDbfs largest magnitude of what was taken away
 */
public record StageAccount(
    String name,
    boolean ran,
    String sentence,
    List<Fact> settings,
    long edits,
    long samplesChanged,
    double secondsChanged,
    double removedRmsDbfs,
    double removedPeakDbfs) {

  public StageAccount {
    settings = List.copyOf(settings);
  }
}
