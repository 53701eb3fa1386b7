package org.groovemend.batch;

import java.util.Map;

/**
 * What came of a side that was done.
 *
 * @param sha256 of the transfer
 * @param ledgerName name of the ledger in the side's folder
 * @param ledgerSeal what stands for the whole ledger
 * @param ledgerBytes length of the ledger
 * @param restoredBytes length of the clean copy
 * @param seconds time by the clock; NaN if the results were there already
 * @param measures by name of the column of the catalogue: texts, numbers, or null
 */
public record SideResult(
    String sha256,
    String ledgerName,
    String ledgerSeal,
    long ledgerBytes,
    long restoredBytes,
    double seconds,
    Map<String, Object> measures) {}
