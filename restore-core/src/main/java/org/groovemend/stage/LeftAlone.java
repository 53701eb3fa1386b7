package org.groovemend.stage;

/**
 * A place that looks damaged but is too long to be filled: left as it is, for a person to judge.
 *
 * @param channel 0 based
 * @param start first frame
 * @param end one past the last
 */
public record LeftAlone(int channel, long start, long end) {}
