package org.groovemend.transfer;

/**
 * What the bits of a file's words tell.
 *
 * @param usedBits bits from the highest to the lowest that ever changes; 0 for a constant; the
 *     container's for float formats
 * @param coarserSeconds whole seconds of sound with at least four bits fewer
 * @param soundingSeconds whole seconds in which any bit changes
 * @param codesMet share of the codes near zero that occur, re what as many words of noise would
 *     meet; well below 1: the words are those of a coarser file times a gain; NaN if not told
 */
public record WordTruth(int usedBits, long coarserSeconds, long soundingSeconds, double codesMet) {}
