package org.groovemend.batch;

/**
 * What the catalogue knows of a side, as far as planning needs it.
 *
 * @param id its number
 * @param place within the collection
 * @param output where its results go
 * @param state how far it has come
 * @param attempts how often it was begun; 0: nothing under its names is ours
 * @param bytes length of the transfer when it was looked at last
 * @param modifiedNanos when that was changed last
 * @param sha256 of the transfer that was done, or null
 * @param treatment digest of what it was done with, or null
 * @param version program it was done with, or null
 * @param ledger name of its ledger, or null
 * @param ledgerBytes length of its ledger
 * @param restoredBytes length of its clean copy
 * @param expectedSeconds what was thought it would take, 0 if never begun
 * @param seconds what it took, 0 if not done
 */
public record SideRow(
    long id,
    String place,
    OutputNames.Output output,
    SideState state,
    int attempts,
    long bytes,
    long modifiedNanos,
    String sha256,
    String treatment,
    String version,
    String ledger,
    long ledgerBytes,
    long restoredBytes,
    double expectedSeconds,
    double seconds) {}
