package org.groovemend.measure;

/**
 * Loudness of a programme after ITU-R BS.1770 and EBU Tech 3341, 3342; negative infinity (for the
 * range 0) if there was not enough to measure.
 *
 * @param integratedLufs gated over all of it
 * @param mostMomentaryLufs loudest 400 ms
 * @param mostShortTermLufs loudest 3 s
 * @param rangeLu loudness range
 */
public record Loudness(
    double integratedLufs, double mostMomentaryLufs, double mostShortTermLufs, double rangeLu) {}
