package org.groovemend.audit;

/**
 * What a third octave of the derivative is of the original's.
 *
 * @param channel of the derivative, from 0
 * @param centreHertz middle of the band
 * @param gainDb its level, re the original
 * @param coherence share of the derivative's power in it that the filter explains, 0 to 1
 */
public record TransferBand(int channel, double centreHertz, double gainDb, double coherence) {}
