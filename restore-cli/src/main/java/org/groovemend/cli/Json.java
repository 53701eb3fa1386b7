package org.groovemend.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;

/** JSON for machines: one object, indented, numbers that are not finite as null. */
final class Json {

  private static final ObjectMapper MAPPER =
      new ObjectMapper()
          .enable(SerializationFeature.INDENT_OUTPUT)
          .configure(JsonGenerator.Feature.AUTO_CLOSE_TARGET, false);

  private Json() {}

  static void print(PrintWriter out, Object value) {
    try {
      out.println(MAPPER.writeValueAsString(finite(MAPPER.valueToTree(value))));
      out.flush();
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a result that is no JSON", e);
    }
  }

  /** The same on one line. */
  static void line(PrintWriter out, Object value) {
    out.println(tree(value));
    out.flush();
  }

  /** The bytes of a file: the object, indented. */
  static byte[] bytes(JsonNode value) {
    return (value.toPrettyString() + '\n').getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Reads a JSON document.
   *
   * @throws IOException if it is none
   */
  static JsonNode read(byte[] utf8) throws IOException {
    return MAPPER.readTree(utf8);
  }

  /** A value as a tree, numbers that are not finite as null. */
  static JsonNode tree(Object value) {
    return finite(MAPPER.valueToTree(value));
  }

  private static JsonNode finite(JsonNode node) {
    if (node instanceof ObjectNode object) {
      object
          .fieldNames()
          .forEachRemaining(
              name -> {
                var child = object.get(name);
                if (notFinite(child)) {
                  object.putNull(name);
                } else {
                  finite(child);
                }
              });
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        if (notFinite(array.get(i))) {
          array.setNull(i);
        } else {
          finite(array.get(i));
        }
      }
    }
    return node;
  }

  private static boolean notFinite(JsonNode node) {
    return node.isFloatingPointNumber() && !Double.isFinite(node.doubleValue());
  }
}
