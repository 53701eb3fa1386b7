package org.groovemend.ledger;

import java.util.Map;

/**
 * What an analyser found on the whole side.
 *
 * @param name the analyser, such as "lead-in"
 * @param result its result by name; as read back, numbers are {@code Long} or {@code Double}, NaN
 *     is {@code null}
 */
public record AnalysisRecord(String name, Map<String, Object> result) implements LedgerRecord {}
