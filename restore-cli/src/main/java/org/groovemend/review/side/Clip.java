package org.groovemend.review.side;

/**
 * The sounds of one place, each a WAV file of 16 bits; the bytes are not to be written to.
 *
 * @param sampleRateHz of the sounds
 * @param gainDb what before was raised by
 * @param matched true if after was brought to the level of before
 * @param matchDb what after was raised by beyond that for it; if not matched, how much louder
 *     before is than after, NaN or infinite in silence
 * @param removedGainDb what the sound of what was taken away was raised by
 */
public record Clip(
    int sampleRateHz,
    double gainDb,
    boolean matched,
    double matchDb,
    double removedGainDb,
    byte[] before,
    byte[] after,
    byte[] removed) {}
