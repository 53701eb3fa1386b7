package org.groovemend.walls;

/**
 * The delay in one passage.
 *
 * @param seconds middle of the passage
 * @param samples how far the right wall comes behind the left
 * @param doubtSamples standard deviation by the Cramer-Rao bound of what the passage shows
 */
public record PassageDelay(double seconds, double samples, double doubtSamples) {}
