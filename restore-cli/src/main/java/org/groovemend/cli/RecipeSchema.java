package org.groovemend.cli;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.deliverable.Container;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.Depth;
import org.groovemend.job.deliver.Recipe;

/** JSON Schema (draft 2020-12) of recipe files. */
final class RecipeSchema {

  private static final Map<String, Object> TEXT = Map.of("type", "string");
  private static final Map<String, Object> NUMBER = Map.of("type", "number");

  private RecipeSchema() {}

  @SuppressWarnings("unchecked")
  static Map<String, Object> schema() {
    Map<String, Object> treatment = new LinkedHashMap<>(TreatmentSchema.schema());
    Map<String, Object> settings =
        new LinkedHashMap<>((Map<String, Object>) treatment.get("properties"));
    settings.remove("treatment");
    List<Object> either =
        List.of(described(TEXT, "Name of a treatment file."), closed(settings, List.of()));

    Map<String, Object> properties = new LinkedHashMap<>();
    properties.put("recipe", Map.of("const", Recipe.FILE_VERSION));
    properties.put(
        "sides", ordered("type", "array", "items", Map.of("anyOf", List.of(TEXT, side()))));
    properties.put("treatment", Map.of("$ref", "#/$defs/treatment"));
    properties.put("speed", Map.of("$ref", "#/$defs/speed"));
    properties.put("tags", Map.of("$ref", "#/$defs/tags"));
    properties.put("cover", described(TEXT, "JPEG or PNG picture of the label or sleeve."));
    properties.put("disc", Map.of("$ref", "#/$defs/disc"));
    properties.put("bands", Map.of("$ref", "#/$defs/bands"));
    properties.put("copies", ordered("type", "array", "minItems", 1, "items", copy()));
    properties.put(
        "bag",
        Map.of(
            "anyOf",
            List.of(
                Map.of("type", "boolean"),
                ordered("type", "object", "additionalProperties", textOrNumber()))));
    properties.put("ditherSeed", Map.of("type", "integer"));

    Map<String, Object> parts = new LinkedHashMap<>();
    parts.put("treatment", Map.of("anyOf", either));
    parts.put("speed", speed());
    parts.put("tags", texts(RecipeFacts.tagKeys()));
    parts.put("disc", texts(RecipeFacts.discKeys()));
    parts.put("bands", bands());

    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("title", "groovemend recipe file, version " + Recipe.FILE_VERSION);
    schema.putAll(closed(properties, List.of("recipe")));
    schema.put("$defs", parts);
    return schema;
  }

  private static Map<String, Object> side() {
    Map<String, Object> side = new LinkedHashMap<>();
    side.put("transfer", described(TEXT, "The original; it is only read."));
    side.put(
        "ledger", described(TEXT, "Ledger of a restoration made before, its files beside it."));
    side.put("treatment", Map.of("$ref", "#/$defs/treatment"));
    side.put("leadIn", described(TEXT, "Bare groove before the music, seconds, such as 0.8-3.1."));
    side.put("speed", Map.of("$ref", "#/$defs/speed"));
    side.put("tags", Map.of("$ref", "#/$defs/tags"));
    side.put("cover", TEXT);
    side.put("disc", Map.of("$ref", "#/$defs/disc"));
    side.put("bands", Map.of("$ref", "#/$defs/bands"));
    return closed(side, List.of("transfer"));
  }

  private static Map<String, Object> speed() {
    Map<String, Object> speed = new LinkedHashMap<>();
    speed.put("played", described(textOrNumber(), "Speed of the turntable, turns a minute."));
    speed.put("meant", described(textOrNumber(), "Speed the disc was made for."));
    speed.put("factor", range(0.25, 4));
    Map<String, Object> node = new LinkedHashMap<>();
    node.put("seconds", NUMBER);
    node.put("factor", NUMBER);
    speed.put("drift", ordered("type", "array", "items", closed(node, RecipeSpeed.NODE)));
    return closed(speed, List.of());
  }

  private static Map<String, Object> texts(List<String> keys) {
    Map<String, Object> texts = new LinkedHashMap<>();
    keys.forEach(key -> texts.put(key, textOrNumber()));
    return closed(texts, List.of());
  }

  private static Map<String, Object> bands() {
    Map<String, Object> bands = new LinkedHashMap<>();
    bands.put("list", described(TEXT, "Name of a list of bands."));
    bands.put("count", ordered("type", "integer", "minimum", 0, "maximum", 999));
    bands.put("exact", Map.of("type", "boolean"));
    bands.put("within", ordered("type", "number", "exclusiveMinimum", 0, "maximum", 60));
    bands.put("preRoll", range(0, 5));
    return Map.of(
        "anyOf",
        List.of(
            described(TEXT, "\"find\", or the name of a list of bands."),
            closed(bands, List.of())));
  }

  private static Map<String, Object> copy() {
    Map<String, Object> copy = new LinkedHashMap<>();
    copy.put("copy", Map.of("enum", Arrays.stream(CopyKind.values()).map(CopyKind::key).toList()));
    copy.put("name", ordered("type", "string", "pattern", "^[A-Za-z0-9_-]{1,40}$"));
    copy.put(
        "format", Map.of("enum", Arrays.stream(Container.values()).map(Container::key).toList()));
    copy.put(
        "rate",
        ordered(
            "type",
            "integer",
            "minimum",
            AudioFormat.MIN_RATE_HZ,
            "maximum",
            AudioFormat.MAX_RATE_HZ));
    List<Object> depths = new ArrayList<>();
    for (Depth depth : Depth.values()) {
      depths.add(depth.key().startsWith("float") ? depth.key() : Integer.valueOf(depth.key()));
    }
    copy.put("depth", Map.of("enum", depths));
    copy.put("gain", range(-60, 60));
    Map<String, Object> loudness = new LinkedHashMap<>();
    loudness.put("target", range(-70, 0));
    loudness.put("per", Map.of("enum", List.of("side", "set")));
    loudness.put("peak", range(-60, -0.1));
    copy.put(
        "loudness", Map.of("anyOf", List.of(range(-70, 0), closed(loudness, List.of("target")))));
    copy.put("bands", Map.of("type", "boolean"));
    return closed(copy, List.of("copy"));
  }

  private static Map<String, Object> textOrNumber() {
    return Map.of("type", List.of("string", "number"));
  }

  private static Map<String, Object> range(double least, double most) {
    return ordered("type", "number", "minimum", least, "maximum", most);
  }

  /** Names and values in turn; the schema reads the same every time. */
  private static Map<String, Object> ordered(Object... pairs) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      map.put((String) pairs[i], pairs[i + 1]);
    }
    return map;
  }

  private static Map<String, Object> described(Map<String, Object> type, String words) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("description", words);
    all.putAll(type);
    return all;
  }

  private static Map<String, Object> closed(Map<String, Object> properties, List<String> required) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("type", "object");
    if (!required.isEmpty()) {
      object.put("required", required);
    }
    object.put("additionalProperties", false);
    object.put("properties", properties);
    return object;
  }
}
