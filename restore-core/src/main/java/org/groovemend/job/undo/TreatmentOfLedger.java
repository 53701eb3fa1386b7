package org.groovemend.job.undo;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.job.restore.NotRepeatedException;
import org.groovemend.job.restore.Treatment;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/** The way back from what a ledger holds of a treatment: {@link Treatment#asMap}. */
final class TreatmentOfLedger {

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
          .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
          .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
          .build();

  private TreatmentOfLedger() {}

  /**
   * Reads it.
   *
   * @param map as a ledger's header holds it
   * @throws NotRepeatedException if a stage works otherwise in this program, or knows other
   *     settings
   */
  static Treatment read(Map<String, Object> map) throws IOException {
    Treatment defaults = Treatment.defaults();
    Treatment treatment;
    try {
      treatment =
          new Treatment(
              CaptureCurve.of((String) map.get("captured")),
              stages(map.get("stages")),
              parameters(map, defaults.clicks()),
              parameters(map, defaults.crackle()),
              parameters(map, defaults.thumps()),
              parameters(map, defaults.hum()),
              parameters(map, defaults.rumble()),
              parameters(map, defaults.curve()),
              parameters(map, defaults.mono()),
              parameters(map, defaults.noise()),
              (Long) map.get("ditherSeed"));
    } catch (IllegalArgumentException | ClassCastException | NullPointerException e) {
      throw new NotRepeatedException(
          "the treatment", "settings of this program", "others: " + e.getMessage());
    }
    Map<String, Object> back = AnalysisRecord.asReadBack(treatment.asMap());
    if (!back.equals(map)) {
      throw new NotRepeatedException("the treatment", map, back);
    }
    return treatment;
  }

  private static List<StageId> stages(Object keys) {
    List<StageId> stages = new ArrayList<>();
    for (Object key : (List<?>) keys) {
      stages.add(
          StageId.ofKey((String) key)
              .orElseThrow(() -> new IllegalArgumentException("there is no stage " + key)));
    }
    return stages;
  }

  @SuppressWarnings("unchecked")
  private static <T extends StageParameters> T parameters(Map<String, Object> map, T defaults) {
    String key = defaults.stage().key();
    if (!(map.get(key) instanceof Map<?, ?> stage)) {
      return defaults;
    }
    Object version = stage.get("version");
    if (!Long.valueOf(defaults.version()).equals(version)) {
      throw new NotRepeatedException("version of the stage " + key, version, defaults.version());
    }
    // a ledger also holds what follows from the settings; the comparison above sees to that
    Map<String, Object> settings = new LinkedHashMap<>();
    for (RecordComponent component : defaults.getClass().getRecordComponents()) {
      settings.put(
          component.getName(), ((Map<?, ?>) stage.get("settings")).get(component.getName()));
    }
    return (T) MAPPER.convertValue(settings, defaults.getClass());
  }
}
