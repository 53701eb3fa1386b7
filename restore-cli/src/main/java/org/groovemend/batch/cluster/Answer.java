package org.groovemend.batch.cluster;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.batch.SideFailure;
import org.groovemend.batch.SideResult;

/**
 * What a worker says of a side, in a form that travels.
 *
 * @param worker machine that it was attempted on
 * @param begun whether nothing of others was in the way of its results
 * @param seconds that the worker was busy with it
 * @param result what came of it, or null
 * @param hidden folder that holds the results until they are put in place; null if they were there
 *     already
 * @param files their names
 * @param failure why nothing came of it, or null
 */
record Answer(
    String worker,
    boolean begun,
    double seconds,
    Done result,
    String hidden,
    List<String> files,
    SideFailure failure) {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** A {@link SideResult} without numbers that JSON does not know. */
  record Done(
      String sha256,
      String ledgerName,
      String ledgerSeal,
      long ledgerBytes,
      long restoredBytes,
      Double seconds,
      Map<String, Object> measures) {

    static Done of(SideResult result) {
      Map<String, Object> measures = new LinkedHashMap<>();
      // what is no number the catalogue takes for unknown
      result
          .measures()
          .forEach(
              (name, value) ->
                  measures.put(
                      name, value instanceof Double d && !Double.isFinite(d) ? null : value));
      return new Done(
          result.sha256(),
          result.ledgerName(),
          result.ledgerSeal(),
          result.ledgerBytes(),
          result.restoredBytes(),
          Double.isFinite(result.seconds()) ? result.seconds() : null,
          measures);
    }

    SideResult result() {
      return new SideResult(
          sha256,
          ledgerName,
          ledgerSeal,
          ledgerBytes,
          restoredBytes,
          seconds == null ? Double.NaN : seconds,
          measures);
    }
  }

  String text() {
    try {
      return MAPPER.writeValueAsString(this);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("texts and numbers are always JSON", e);
    }
  }

  static Answer of(String text) {
    try {
      return MAPPER.readValue(text, Answer.class);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("an answer of another version of the program", e);
    }
  }
}
