package org.groovemend.stage;

/**
 * What a signal stage has to say of a place, such as the weights it chose there.
 *
 * @param frame where
 * @param values as the stage documents them
 */
public record StageNote(long frame, double[] values) {}
