package org.groovemend.audit;

/**
 * How soft and loud sound of a third octave was lowered, what the models say taken out.
 *
 * @param centreHertz middle of the band
 * @param softDb median gain of its softest three tenths
 * @param loudDb the same of its loudest tenth
 * @param moments that were counted
 */
public record SoftLoud(double centreHertz, double softDb, double loudDb, long moments) {}
