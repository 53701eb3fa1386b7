package org.groovemend.transfer;

/**
 * A stretch that sounds the same one turn of the disc later.
 *
 * @param fromFrame where the first of the two passages begins
 * @param toFrame where the last of the passages that sound alike ends
 * @param turnSeconds from one to the next
 * @param turns how often the groove is played again: length of the likeness over the turn
 * @param likeness mean correlation of the passages, 100 Hz to 1 kHz
 */
public record TurnRepeat(
    long fromFrame, long toFrame, double turnSeconds, double turns, double likeness) {}
