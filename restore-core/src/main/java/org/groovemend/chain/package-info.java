/**
 * Runs a side through its stages: cuts segments, hands them to workers, joins results in order,
 * quantises once.
 *
 * <p>Everything is decided by frame numbers: the same bytes come out for any number of threads.
 * Memory depends on segment length, stages and threads, never on the length of the side.
 */
package org.groovemend.chain;
