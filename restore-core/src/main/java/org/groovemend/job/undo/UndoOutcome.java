package org.groovemend.job.undo;

import java.nio.file.Path;
import java.util.List;

/**
 * What came of taking edits back.
 *
 * @param counts what was taken back and what stays
 * @param restoredFile the new copy
 * @param ledgerFile its ledger, which names its parent
 * @param removedFile what was taken away from the original, or null if only repairs ran
 * @param decisionsFile which edits, by whom and why
 * @param seal of the new ledger
 * @param changedSamples words in which the new copy differs from the original
 * @param clippedSamples words that had to be limited to full scale
 * @param remarks what a person should know, one sentence each
 */
public record UndoOutcome(
    UndoCounts counts,
    Path restoredFile,
    Path ledgerFile,
    Path removedFile,
    Path decisionsFile,
    String seal,
    long changedSamples,
    long clippedSamples,
    List<String> remarks) {}
