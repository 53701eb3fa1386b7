package org.groovemend.job.deliver;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.ledger.Sha256;

/**
 * A JSON file that carries its own digest in the field {@code seal}: the SHA-256 of the file's
 * bytes with 64 zeros in the place of the seal's digits. The field stands last.
 */
final class SealedRecord {

  /** Name of the field. */
  static final String SEAL = "seal";

  private static final String ZEROS = "0".repeat(64);

  /** Longest record that is read, bytes. */
  private static final long LONGEST = 64L << 20;

  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private SealedRecord() {}

  /**
   * Writes a new file.
   *
   * @param content without a seal; numbers that are not finite become null
   */
  static void write(Path file, Map<String, Object> content) throws IOException {
    Map<String, Object> all = new LinkedHashMap<>(content);
    all.put(SEAL, ZEROS);
    String text;
    try {
      text =
          MAPPER.writeValueAsString(MAPPER.valueToTree(finite(all))).replace("\r\n", "\n") + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a record that is no JSON", e);
    }
    String seal = Sha256.of(text.getBytes(StandardCharsets.UTF_8));
    int at = text.lastIndexOf(ZEROS);
    try (OutputStream out = Files.newOutputStream(file, StandardOpenOption.CREATE_NEW)) {
      out.write(
          (text.substring(0, at) + seal + text.substring(at + ZEROS.length()))
              .getBytes(StandardCharsets.UTF_8));
    }
  }

  @SuppressWarnings("unchecked")
  private static Object finite(Object value) {
    if (value instanceof Map<?, ?> map) {
      Map<String, Object> out = new LinkedHashMap<>();
      ((Map<String, Object>) map).forEach((key, one) -> out.put(key, finite(one)));
      return out;
    }
    return value instanceof Double number && !Double.isFinite(number) ? null : value;
  }

  /**
   * What was read.
   *
   * @param content null if it is no JSON object
   * @param stated the seal that it carries, "" if none
   * @param found the seal that it ought to carry
   */
  record Read(JsonNode content, String stated, String found) {
    /** True if it is as it was written. */
    public boolean whole() {
      return content != null && stated.equals(found);
    }
  }

  /** Reads a file, damaged or not. */
  static Read read(Path file) throws IOException {
    if (Files.size(file) > LONGEST) {
      return new Read(null, "", "");
    }
    byte[] bytes = Files.readAllBytes(file);
    JsonNode node;
    try {
      node = MAPPER.readTree(bytes);
    } catch (JsonProcessingException e) {
      return new Read(null, "", "");
    }
    if (!(node instanceof ObjectNode)) {
      return new Read(null, "", "");
    }
    String stated = node.path(SEAL).asText("");
    String text = new String(bytes, StandardCharsets.UTF_8);
    int at = stated.length() == ZEROS.length() ? text.lastIndexOf(stated) : -1;
    String found =
        at < 0
            ? ""
            : Sha256.of(
                (text.substring(0, at) + ZEROS + text.substring(at + ZEROS.length()))
                    .getBytes(StandardCharsets.UTF_8));
    return new Read(node, stated, found);
  }
}
