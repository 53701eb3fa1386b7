package org.groovemend.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;

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
