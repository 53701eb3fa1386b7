package org.groovemend.job.speed;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.SideReader;
import org.groovemend.speed.DriftNode;
import org.groovemend.speed.TimeMap;
import org.groovemend.speed.Wow;

/** The record beside a copy at another speed: enough to trace it, and to make it again. */
public final class SpeedRecord {
  private static final int VERSION = 1;
  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private SpeedRecord() {}

  /**
   * @param sha256 of the whole file
   */
  public record Identity(String name, long bytes, String sha256) {}

  static String json(
      SpeedCopy.Request request,
      SideReader side,
      SpeedCopy.Outcome outcome,
      Identity original,
      Identity copy) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("speed", VERSION);
    all.put("tool", "groovemend " + request.toolVersion());
    all.put("made", request.now().toString());
    all.put("original", file(original, side.format(), side.frames()));
    all.put("copy", file(copy, outcome.format(), outcome.frames()));
    all.put("basis", request.basis());
    all.putAll(asMap(request.map()));
    all.put(
        "rule",
        "du/dt = (1 + wow(t)) / (factor * drift(t)); t seconds in the original, u in the copy, both from 0");
    Map<String, Object> dither = new LinkedHashMap<>();
    dither.put("kind", outcome.format().coding() == SampleCoding.PCM ? "triangular" : "none");
    dither.put("seed", request.ditherSeed());
    all.put("dither", dither);
    all.put("samplesClipped", outcome.clipped());
    all.put("chunksLeftOut", outcome.leftOut());
    try {
      return MAPPER.writeValueAsString(all) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a record that is no JSON", e);
    }
  }

  /** Factor, drift and wow for machines. */
  public static Map<String, Object> asMap(TimeMap map) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("factor", map.factor());
    List<Map<String, Object>> nodes = new ArrayList<>();
    for (DriftNode node : map.drift()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("seconds", node.seconds());
      one.put("factor", node.factor());
      nodes.add(one);
    }
    all.put("drift", nodes);
    all.put("wow", map.wow() == null ? null : asMap(map.wow()));
    return all;
  }

  public static Map<String, Object> asMap(Wow wow) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("turnSeconds", wow.turnSeconds());
    all.put("outerMm", wow.outerMm());
    all.put("mmPerSecond", wow.mmPerSecond());
    List<Map<String, Object>> parts = new ArrayList<>();
    for (Wow.Part part : wow.parts()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("timesATurn", part.order());
      one.put("cosMm", part.cosMm());
      one.put("sinMm", part.sinMm());
      parts.add(one);
    }
    all.put("parts", parts);
    all.put(
        "rule",
        "wow(t) = sum of (cosMm cos(k a) + sinMm sin(k a)) / (outerMm - mmPerSecond t), a = 2 pi t / turnSeconds, k = timesATurn");
    return all;
  }

  private static Map<String, Object> file(Identity identity, AudioFormat format, long frames) {
    Objects.requireNonNull(identity);
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("name", identity.name());
    all.put("bytes", identity.bytes());
    all.put("sha256", identity.sha256());
    all.put("frames", frames);
    all.put("sampleRateHz", format.sampleRateHz());
    all.put("channels", format.channels());
    all.put("coding", format.coding().name());
    all.put("containerBits", format.containerBits());
    return all;
  }
}
