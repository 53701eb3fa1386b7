package org.groovemend.cli;

import com.fasterxml.jackson.core.exc.InputCoercionException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.math.BigInteger;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.job.restore.Treatment;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Reads a treatment file (YAML 1.2). Strict: an unknown key, a wrong kind of value or a value out
 * of range is refused.
 */
final class TreatmentFile {

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
          .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
          .enable(MapperFeature.ACCEPT_CASE_INSENSITIVE_ENUMS)
          .build();

  private static final String VERSION = "treatment";

  private static final List<String> TOP =
      List.of(
          VERSION,
          "captured",
          "stages",
          "clicks",
          "crackle",
          "thumps",
          "hum",
          "rumble",
          "curve",
          "mono",
          "noise",
          "ditherSeed");

  private TreatmentFile() {}

  static Treatment read(Path file) throws IOException {
    return of(YamlMap.read(file, "treatment"));
  }

  /**
   * @param name of the file, for messages
   */
  static Treatment parse(String text, String name) {
    return of(YamlMap.parse(text, name, "treatment"));
  }

  /** A whole file. */
  static Treatment of(YamlMap top) {
    top.refuseUnknown(TOP);
    Object version = top.get(VERSION);
    if (!Integer.valueOf(Treatment.FILE_VERSION).equals(version)) {
      throw new UsageException(
          top.file()
              + ": \"treatment: "
              + Treatment.FILE_VERSION
              + "\" must say the version of the file's form, but it says "
              + (version == null ? "nothing" : version));
    }
    return over(top, Treatment.defaults());
  }

  /** The settings within another file, which says the version. */
  static Treatment within(YamlMap top) {
    return within(top, Treatment.defaults());
  }

  /** The same; what is not said there is as in another treatment. */
  static Treatment within(YamlMap top, Treatment given) {
    top.refuseUnknown(TOP.subList(1, TOP.size()));
    return over(top, given);
  }

  private static Treatment over(YamlMap top, Treatment defaults) {
    String name =
        top.path().isEmpty() ? top.file() : top.file() + ": " + top.path().replaceFirst("\\.$", "");
    try {
      return new Treatment(
          top.has("captured")
              ? TreatmentOptions.captured(String.valueOf(top.get("captured")))
              : defaults.captured(),
          top.has("stages") ? stages(top.get("stages")) : defaults.stages(),
          parameters(top, defaults.clicks()),
          parameters(top, defaults.crackle()),
          parameters(top, defaults.thumps()),
          parameters(top, defaults.hum()),
          parameters(top, defaults.rumble()),
          parameters(top, defaults.curve()),
          parameters(top, defaults.mono()),
          parameters(top, defaults.noise()),
          top.has("ditherSeed") ? seed(top.get("ditherSeed")) : defaults.ditherSeed());
    } catch (IllegalArgumentException e) {
      throw new UsageException(name + ": " + e.getMessage());
    }
  }

  private static List<StageId> stages(Object value) {
    if (!(value instanceof List<?> list)) {
      throw new IllegalArgumentException("stages is not a list such as [clicks, noise]");
    }
    return TreatmentOptions.stages(list.stream().map(String::valueOf).toList());
  }

  private static long seed(Object value) {
    if (value instanceof Integer || value instanceof Long) {
      return ((Number) value).longValue();
    }
    throw new IllegalArgumentException(
        "ditherSeed "
            + value
            + " is not a whole number"
            + (value instanceof BigInteger ? " of at most 64 bits" : ""));
  }

  @SuppressWarnings("unchecked")
  private static <T extends StageParameters> T parameters(YamlMap top, T defaults) {
    String key = defaults.stage().key();
    if (!top.has(key)) {
      return defaults;
    }
    YamlMap given = top.part(key);
    Map<String, Object> all = new LinkedHashMap<>();
    for (RecordComponent component : defaults.getClass().getRecordComponents()) {
      all.put(component.getName(), Settings.value(component, defaults));
    }
    given.refuseUnknown(new ArrayList<>(all.keySet()));
    all.putAll(given.content());
    try {
      return (T) MAPPER.convertValue(all, defaults.getClass());
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(key + ": " + reason(e), e);
    }
  }

  private static String reason(IllegalArgumentException e) {
    Throwable root = e;
    String field = "";
    while (root.getCause() != null) {
      root = root.getCause();
      if (root instanceof JsonMappingException mapping && !mapping.getPath().isEmpty()) {
        field = mapping.getPath().get(0).getFieldName();
      }
    }
    if (root instanceof InputCoercionException) {
      return field + " is a number far out of range";
    }
    if (root instanceof JsonMappingException mapping && !mapping.getPath().isEmpty()) {
      return mapping.getPath().get(0).getFieldName() + " has a value of the wrong kind";
    }
    return root instanceof IllegalArgumentException refused
        ? Usage.words(refused)
        : root.getMessage();
  }
}
