package org.groovemend.review;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.Iterator;
import java.util.Set;
import org.groovemend.review.door.Refusal;

/** What a page sent: one JSON object whose members are all known. */
final class Body {

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .build();

  private final JsonNode object;

  private Body(JsonNode object) {
    this.object = object;
  }

  /**
   * Reads it.
   *
   * @throws Refusal if it is no object, or has other members than these
   */
  static Body read(byte[] content, String... members) throws IOException {
    JsonNode node;
    try {
      node = MAPPER.readTree(content);
    } catch (JsonProcessingException e) {
      throw new Refusal(400, "What was sent is no JSON.");
    }
    if (!node.isObject()) {
      throw new Refusal(400, "What was sent is no JSON object.");
    }
    Set<String> known = Set.of(members);
    for (Iterator<String> names = node.fieldNames(); names.hasNext(); ) {
      if (!known.contains(names.next())) {
        throw new Refusal(400, "What was sent has a member that is not known here.");
      }
    }
    return new Body(node);
  }

  /** A text, or null if it is not there. */
  String text(String name) {
    JsonNode value = value(name);
    if (value != null && !value.isTextual()) {
      throw wrong(name);
    }
    return value == null ? null : value.textValue();
  }

  /** A whole number, or null if it is not there. */
  Long whole(String name) {
    JsonNode value = value(name);
    if (value != null && (!value.isIntegralNumber() || !value.canConvertToLong())) {
      throw wrong(name);
    }
    return value == null ? null : value.longValue();
  }

  /** A whole number below 2,147,483,648, or null if it is not there. */
  Integer index(String name) {
    JsonNode value = value(name);
    if (value != null && (!value.isIntegralNumber() || !value.canConvertToInt())) {
      throw wrong(name);
    }
    return value == null ? null : value.intValue();
  }

  /** A number, or null if it is not there. */
  Double number(String name) {
    JsonNode value = value(name);
    if (value != null && !value.isNumber()) {
      throw wrong(name);
    }
    return value == null ? null : value.doubleValue();
  }

  /** A value that must be there. */
  static <T> T required(T value, String name) {
    if (value == null) {
      throw wrong(name);
    }
    return value;
  }

  private JsonNode value(String name) {
    JsonNode value = object.get(name);
    return value == null || value.isNull() ? null : value;
  }

  private static Refusal wrong(String name) {
    return new Refusal(400, "What was sent has no proper " + name + ".");
  }
}
