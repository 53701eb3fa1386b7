package org.groovemend.simulate;

/**
 * Samples that damage has altered noticeably.
 *
 * @param kind what it was
 * @param channel 0 left wall, 1 right wall
 * @param start first frame
 * @param end one past the last frame
 * @param peak largest magnitude of the damage alone within the range, full scale 1.0
 */
public record DamagedRange(DamageKind kind, int channel, long start, long end, double peak) {}
