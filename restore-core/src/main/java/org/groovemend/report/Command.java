package org.groovemend.report;

/**
 * A command a person can type.
 *
 * @param purpose "Prove that nothing else was changed"
 * @param line exactly as typed
 */
public record Command(String purpose, String line) {}
