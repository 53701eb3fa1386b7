package org.groovemend.audit;

/**
 * A stretch that is the same sound at another level than the rest.
 *
 * @param from first frame of the derivative
 * @param to one past the last
 * @param channel from 0
 * @param fromDb level re what was expected, at the beginning
 * @param toDb at the end
 */
public record LevelStretch(long from, long to, int channel, double fromDb, double toDb) {}
