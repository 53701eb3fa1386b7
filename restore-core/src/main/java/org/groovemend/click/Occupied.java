package org.groovemend.click;

/**
 * Frames that may be damaged already, of any channel.
 *
 * @param start first
 * @param end one past the last
 */
record Occupied(long start, long end) {}
