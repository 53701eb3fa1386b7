package org.groovemend.job.restore;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.groovemend.ledger.FileFacts;

/**
 * What came of it.
 *
 * @param original the transfer
 * @param restored the clean copy
 * @param removed the difference file, or null
 * @param restoredFile where the clean copy lies
 * @param ledgerFile where the ledger lies
 * @param removedFile where the difference lies, or null
 * @param reportFile where the page lies
 * @param seal of the ledger
 * @param stagesApplied stage keys in order
 * @param editsByStage edits by stage key
 * @param changedSamples words that differ
 * @param clippedSamples words that had to be limited to full scale
 * @param removedLevelDbfs root mean square of what was taken away over the whole side
 * @param comparison noise and music before and after
 * @param remarks what a person should know, one sentence each
 */
public record RestoreOutcome(
    FileFacts original,
    FileFacts restored,
    FileFacts removed,
    Path restoredFile,
    Path ledgerFile,
    Path removedFile,
    Path reportFile,
    String seal,
    List<String> stagesApplied,
    Map<String, Long> editsByStage,
    long changedSamples,
    long clippedSamples,
    double removedLevelDbfs,
    SideComparison comparison,
    List<String> remarks) {}
