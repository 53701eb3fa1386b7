package org.groovemend.transfer;

/**
 * Constant offset of a channel, full scale 1.0.
 *
 * @param mean over the whole side
 * @param drift largest less smallest mean of its parts; NaN if the side is too short for two
 */
public record Offset(double mean, double drift) {}
