/**
 * What became of a recording: an original and something made from it are laid one on the other, and
 * every difference is explained or reported.
 *
 * <p>With a ledger the words themselves are compared ({@link org.groovemend.audit.LedgerAudit}).
 * Without one it is measured ({@link org.groovemend.audit.MeasuredAudit}): onsets give a coarse
 * place, whitened cross-correlation (C. Knapp and G. C. Carter, IEEE Trans. ASSP 24(4), 1976) the
 * sample, {@link org.groovemend.walls.DelaySearch} its part; a least-squares filter stands for
 * gain, polarity, delay and equalisation at once; what it leaves, against its own robust floor, is
 * what was changed locally. Reads only; memory is a few blocks, and some 3 kB for each second of
 * sound for the onsets.
 */
package org.groovemend.audit;
