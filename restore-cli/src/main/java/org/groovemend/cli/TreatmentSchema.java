package org.groovemend.cli;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.job.restore.Treatment;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.playback.CurveTable;
import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/** JSON Schema (draft 2020-12) of treatment files, made from the declarations of the settings. */
final class TreatmentSchema {

  private TreatmentSchema() {}

  static Map<String, Object> schema() {
    Map<String, Object> properties = new LinkedHashMap<>();
    properties.put("treatment", Map.of("const", Treatment.FILE_VERSION));
    properties.put("captured", captured());
    Map<String, Object> stages = new LinkedHashMap<>();
    stages.put("type", "array");
    stages.put("items", Map.of("enum", Arrays.stream(StageId.values()).map(StageId::key).toList()));
    properties.put("stages", stages);
    for (StageParameters parameters : Treatment.defaults().parameters()) {
      properties.put(parameters.stage().key(), stage(parameters));
    }
    properties.put("ditherSeed", Map.of("type", "integer"));

    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("title", "groovemend treatment file, version " + Treatment.FILE_VERSION);
    schema.put("type", "object");
    schema.put("required", List.of("treatment"));
    schema.put("additionalProperties", false);
    schema.put("properties", properties);
    return schema;
  }

  /** Names of curves, or numbers as {@link org.groovemend.playback.ChosenCurve} takes them. */
  private static Map<String, Object> captured() {
    List<String> names = new ArrayList<>(CurveTable.keys());
    names.add(CaptureCurve.UNKNOWN.key());
    names.add("none");
    Map<String, Object> captured = new LinkedHashMap<>();
    captured.put("type", "string");
    captured.put("default", Treatment.defaults().captured().key());
    captured.put(
        "anyOf",
        List.of(
            Map.of("enum", names),
            Map.of("pattern", "^us:[0-9.-]+,[0-9.-]+,[0-9.-]+$"),
            Map.of("pattern", "^[0-9.]+/[+-]?[0-9.]+(/[0-9.]+)?$")));
    return captured;
  }

  private static Map<String, Object> stage(StageParameters parameters) {
    Map<String, Object> settings = new LinkedHashMap<>();
    for (RecordComponent component : parameters.getClass().getRecordComponents()) {
      Setting declared = Settings.declaration(component);
      Map<String, Object> property = new LinkedHashMap<>();
      property.put("description", declared.why());
      Class<?> type = component.getType();
      if (type.isEnum()) {
        List<String> names = new ArrayList<>();
        for (Object constant : type.getEnumConstants()) {
          names.add(constant.toString().toLowerCase(Locale.ROOT));
        }
        property.put("enum", names);
      } else if (type == boolean.class) {
        property.put("type", "boolean");
      } else if (type == String.class) {
        property.put("type", "string");
      } else {
        property.put("type", type == int.class || type == long.class ? "integer" : "number");
      }
      if (Double.isFinite(declared.min())) {
        property.put("minimum", declared.min());
      }
      if (Double.isFinite(declared.max())) {
        property.put("maximum", declared.max());
      }
      Object standard = Settings.value(component, parameters);
      property.put("default", type.isEnum() ? Settings.text(standard) : standard);
      settings.put(component.getName(), property);
    }
    Map<String, Object> stage = new LinkedHashMap<>();
    stage.put("type", "object");
    stage.put("additionalProperties", false);
    stage.put("properties", settings);
    return stage;
  }
}
