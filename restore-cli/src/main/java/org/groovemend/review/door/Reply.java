package org.groovemend.review.door;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Map;

/**
 * An answer.
 *
 * @param status of HTTP (RFC 9110)
 * @param type media type
 * @param content not to be written to
 */
public record Reply(int status, String type, byte[] content) {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  public static Reply of(String type, byte[] content) {
    return new Reply(200, type, content);
  }

  public static Reply bytes(byte[] content) {
    return of("application/octet-stream", content);
  }

  public static Reply json(Object value) {
    return json(200, value);
  }

  static Reply refused(int status, String sentence) {
    return json(status, Map.of("error", sentence));
  }

  private static Reply json(int status, Object value) {
    try {
      return new Reply(status, "application/json; charset=utf-8", MAPPER.writeValueAsBytes(value));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("an answer that is no JSON", e);
    }
  }
}
