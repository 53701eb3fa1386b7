package org.groovemend.cli;

import com.fasterxml.jackson.core.exc.InputCoercionException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.math.BigInteger;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.job.Treatment;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

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

  private static final List<String> TOP =
      List.of(
          "treatment",
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
    if (Files.isDirectory(file)) {
      throw new UsageException(file + " is a folder; name a treatment file in it");
    }
    String text;
    try {
      text = Files.readString(file);
    } catch (CharacterCodingException e) {
      throw new UsageException(file + " is not a text file in UTF-8");
    }
    return parse(text, file.toString());
  }

  /**
   * @param name of the file, for messages
   */
  static Treatment parse(String text, String name) {
    Object loaded;
    try {
      loaded = new Load(LoadSettings.builder().setLabel(name).build()).loadFromString(text);
    } catch (MarkedYamlEngineException e) {
      String place = e.getProblemMark().map(mark -> ", line " + (mark.getLine() + 1)).orElse("");
      throw new UsageException(name + place + ": " + e.getProblem());
    } catch (YamlEngineException e) {
      throw new UsageException(name + ": " + e.getMessage());
    }
    if (loaded == null) {
      throw new UsageException(name + " is empty; 'groovemend treatment' prints a complete one");
    }
    Map<String, Object> top = map(loaded, name, "the file");
    refuseUnknown(top, TOP, name, "");
    Object version = top.get("treatment");
    if (!Integer.valueOf(Treatment.FILE_VERSION).equals(version)) {
      throw new UsageException(
          name
              + ": \"treatment: "
              + Treatment.FILE_VERSION
              + "\" must say the version of the file's form, but it says "
              + (version == null ? "nothing" : version));
    }
    Treatment defaults = Treatment.defaults();
    return within(
        name,
        () ->
            new Treatment(
                top.containsKey("captured")
                    ? TreatmentOptions.captured(String.valueOf(top.get("captured")))
                    : defaults.captured(),
                top.containsKey("stages") ? stages(top.get("stages")) : defaults.stages(),
                parameters(top, defaults.clicks(), name),
                parameters(top, defaults.crackle(), name),
                parameters(top, defaults.thumps(), name),
                parameters(top, defaults.hum(), name),
                parameters(top, defaults.rumble(), name),
                parameters(top, defaults.curve(), name),
                parameters(top, defaults.mono(), name),
                parameters(top, defaults.noise(), name),
                top.containsKey("ditherSeed")
                    ? seed(top.get("ditherSeed"))
                    : defaults.ditherSeed()));
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
  private static <T extends StageParameters> T parameters(
      Map<String, Object> top, T defaults, String name) {
    String key = defaults.stage().key();
    if (!top.containsKey(key)) {
      return defaults;
    }
    Map<String, Object> given = map(top.get(key), name, key);
    Map<String, Object> all = new LinkedHashMap<>();
    for (RecordComponent component : defaults.getClass().getRecordComponents()) {
      all.put(component.getName(), Settings.value(component, defaults));
    }
    refuseUnknown(given, new ArrayList<>(all.keySet()), name, key + ".");
    all.putAll(given);
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

  private static Treatment within(String name, java.util.function.Supplier<Treatment> making) {
    try {
      return making.get();
    } catch (IllegalArgumentException e) {
      throw new UsageException(name + ": " + e.getMessage());
    }
  }

  private static Map<String, Object> map(Object value, String name, String what) {
    if (!(value instanceof Map<?, ?> raw)) {
      throw new UsageException(name + ": " + what + " does not hold \"key: value\" lines");
    }
    Map<String, Object> map = new LinkedHashMap<>();
    raw.forEach((key, content) -> map.put(String.valueOf(key), content));
    return map;
  }

  private static void refuseUnknown(
      Map<String, Object> given, List<String> known, String name, String prefix) {
    for (String key : given.keySet()) {
      if (!known.contains(key)) {
        throw new UsageException(
            name + ": there is no setting \"" + prefix + key + "\"" + Nearest.hint(key, known));
      }
    }
  }
}
