package org.groovemend.sealed;

import com.fasterxml.jackson.core.JsonFactoryBuilder;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.erdtman.jcs.JsonCanonicalizer;

/**
 * JSON in the one form that a digest can be taken of: RFC 8785, "JSON Canonicalization Scheme".
 *
 * <p>Numbers are those of RFC 8785, IEEE 754 doubles: whole numbers are exact up to 2^53.
 */
public final class CanonicalJson {

  static final TypeReference<Map<String, Object>> MAP = new TypeReference<>() {};

  private static final ObjectMapper MAPPER =
      JsonMapper.builder(
              new JsonFactoryBuilder()
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .disable(JsonWriteFeature.WRITE_NAN_AS_STRINGS)
                  .build())
          .enable(DeserializationFeature.USE_LONG_FOR_INTS)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .build();

  private CanonicalJson() {}

  /**
   * The canonical bytes, UTF-8.
   *
   * @param content names to values: maps, lists, texts, numbers, booleans, null
   * @throws IllegalArgumentException if there is something else in it, or a number that is not
   *     finite
   */
  public static byte[] bytes(Map<String, Object> content) {
    try {
      return canonical(MAPPER.writeValueAsString(content));
    } catch (IOException e) {
      throw new IllegalArgumentException("no JSON of its own kind: " + e.getMessage(), e);
    }
  }

  /**
   * The canonical bytes of any JSON object or array.
   *
   * @throws IOException if {@code json} is none
   */
  public static byte[] canonical(String json) throws IOException {
    return new JsonCanonicalizer(json).getEncodedUTF8();
  }

  /**
   * Reads a JSON object; doubled names are refused.
   *
   * @throws IOException if {@code utf8} is none
   */
  static Map<String, Object> read(byte[] utf8) throws IOException {
    return MAPPER.readValue(new String(utf8, StandardCharsets.UTF_8), MAP);
  }
}
