package org.groovemend.ledger;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonFactoryBuilder;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.Map;

/**
 * The one set-up of the JSON library for ledgers: strict when reading, the same bytes each time
 * when writing.
 */
final class LedgerJson {

  /** Longest line that is written or read: an edit of a million frames of 64-bit words fits. */
  static final int MAX_LINE_BYTES = 16 << 20;

  /** 64 zeros: the hash before the first line. */
  static final String NO_PREVIOUS = "0".repeat(64);

  static final TypeReference<Map<String, Object>> MAP = new TypeReference<>() {};

  private static final int MAX_NESTING = 64;

  static final JsonFactory FACTORY =
      new JsonFactoryBuilder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .disable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
          .rootValueSeparator("")
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxStringLength(MAX_LINE_BYTES)
                  .maxNestingDepth(MAX_NESTING)
                  .build())
          .build();

  static final ObjectMapper MAPPER =
      JsonMapper.builder(FACTORY)
          .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
          .disable(SerializationFeature.FAIL_ON_EMPTY_BEANS)
          .enable(DeserializationFeature.USE_LONG_FOR_INTS)
          .build();

  private LedgerJson() {}
}
