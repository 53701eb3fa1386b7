package org.groovemend.batch;

/**
 * How a run is made, for the catalogue.
 *
 * @param version of the program
 * @param threads at work
 * @param memoryBytes for all sides under work together
 * @param found sides of the collection
 * @param skipped of these, done already
 * @param planned of these, to be done
 */
public record RunFacts(
    String version, int threads, long memoryBytes, int found, int skipped, int planned) {}
