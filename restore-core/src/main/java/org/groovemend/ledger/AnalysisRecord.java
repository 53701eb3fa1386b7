package org.groovemend.ledger;

import java.io.IOException;
import java.util.Map;

/**
 * What an analyser found on the whole side.
 *
 * @param name the analyser, such as "lead-in"
 * @param result its result by name; as read back, numbers are {@code Long} or {@code Double}, NaN
 *     is {@code null}
 */
public record AnalysisRecord(String name, Map<String, Object> result) implements LedgerRecord {

  /**
   * What a ledger holds of a finding once it is read back, so that one made today can be compared
   * with it.
   *
   * @param recordOrMap as {@link LedgerWriter#analysis} takes it
   */
  public static Map<String, Object> asReadBack(Object recordOrMap) throws IOException {
    Map<String, Object> result = LedgerJson.MAPPER.convertValue(recordOrMap, LedgerJson.MAP);
    RecordWriter.Line line =
        new RecordWriter().line(new AnalysisRecord("", result), LedgerJson.NO_PREVIOUS);
    try {
      LedgerRecord read = RecordReader.read(RecordKind.ANALYSIS, line.array(), line.size());
      return ((AnalysisRecord) read).result();
    } catch (RecordFields.WrongFieldException e) {
      throw new IllegalStateException("what was just written cannot be read", e);
    }
  }
}
