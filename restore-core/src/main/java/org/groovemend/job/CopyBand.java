package org.groovemend.job;

/**
 * A band that copies may be cut to.
 *
 * @param number from 1
 * @param of how many there are
 * @param title "" if unknown
 * @param firstFrame of the clean copy
 * @param endFrame behind its last
 */
record CopyBand(int number, int of, String title, long firstFrame, long endFrame) {}
