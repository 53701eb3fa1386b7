package org.groovemend.ledger;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * The sums.
 *
 * @param edits edits in the ledger
 * @param editsByStage edits by stage key; every stage that made one must be there, others may be
 *     there with 0
 * @param changedSamples words that differ between original and restored, counted over all channels
 * @param clippedSamples words of the restored file that had to be limited to full scale
 * @param restored the clean copy
 * @param removed the difference file, null if only repair stages ran
 * @param warnings what a person should know, one sentence each
 */
public record LedgerTotals(
    long edits,
    Map<String, Long> editsByStage,
    long changedSamples,
    long clippedSamples,
    FileFacts restored,
    FileFacts removed,
    List<String> warnings)
    implements LedgerRecord {

  public LedgerTotals {
    Objects.requireNonNull(restored, "restored");
    if (edits < 0 || changedSamples < 0 || clippedSamples < 0) {
      throw new IllegalArgumentException(
          "edits "
              + edits
              + ", changed samples "
              + changedSamples
              + ", clipped samples "
              + clippedSamples
              + ": one is negative");
    }
    // sorted, so that the same sums are the same bytes
    editsByStage = Collections.unmodifiableMap(new TreeMap<>(editsByStage));
    warnings = List.copyOf(warnings);
  }
}
