package org.groovemend.evaluate;

/**
 * A repaired range as the ledger has it.
 *
 * @param channel 0 based
 * @param start first frame
 * @param end one past the last
 * @param margin how far its statistic stands above its threshold
 */
record FoundRange(int channel, int start, int end, double margin) {}
