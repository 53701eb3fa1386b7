package org.groovemend.batch;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.ledger.AnalysisRecord;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.Ledger;

/** What the catalogue keeps of a side's measures, by column; all of it is read off its ledger. */
final class SideMeasures {

  private final Ledger ledger;
  private final Map<String, Object> measures = new LinkedHashMap<>();

  private SideMeasures(Ledger ledger) {
    this.ledger = ledger;
  }

  static Map<String, Object> of(Ledger ledger) {
    SideMeasures found = new SideMeasures(ledger);
    found.file();
    found.edits();
    found.levels(found.analysis("levels"));
    found.noise(found.analysis("noiseFloor"));
    found.rotation(found.analysis("rotation"));
    Map<String, Object> leadIn = found.analysis("leadIn");
    found.measures.put("lead_in_confidence", leadIn.get("confidence"));
    return found.measures;
  }

  private Map<String, Object> analysis(String name) {
    return ledger.analyses().stream()
        .filter(record -> record.name().equals(name))
        .map(AnalysisRecord::result)
        .findFirst()
        .orElse(Map.of());
  }

  private void file() {
    FileFacts original = ledger.header().original();
    measures.put("container", original.container());
    measures.put("rate_hz", original.format().sampleRateHz());
    measures.put("channels", original.format().channels());
    measures.put("bits", original.format().significantBits());
    measures.put("frames", original.frames());
    measures.put("captured", ledger.header().capturedThrough());
    measures.put(
        "stages",
        String.join(",", ledger.header().stages().stream().map(AppliedStage::name).toList()));
  }

  private void edits() {
    FileFacts original = ledger.header().original();
    double minutes = original.frames() / (60.0 * original.format().sampleRateHz());
    long edits = ledger.totals().edits();
    measures.put("edits", edits);
    measures.put("edits_by_stage", ledger.totals().editsByStage());
    measures.put("edits_per_minute", minutes > 0 ? edits / minutes : null);
    measures.put("changed_samples", ledger.totals().changedSamples());
    measures.put("clipped_samples", ledger.totals().clippedSamples());
    measures.put("remarks", ledger.totals().warnings());
  }

  private void levels(Map<String, Object> levels) {
    List<Map<String, Object>> channels = maps(levels.get("channels"));
    Double peak = null;
    double power = 0;
    long clipped = 0;
    for (Map<String, Object> channel : channels) {
      Double at = number(channel.get("peakDbfs"));
      peak = at == null ? peak : peak == null ? at : Double.valueOf(Math.max(peak, at));
      Double rms = number(channel.get("rmsDbfs"));
      power += rms == null ? 0 : StrictMath.pow(10, rms / 10) / channels.size();
      clipped += channel.get("clippedRuns") instanceof Number runs ? runs.longValue() : 0;
    }
    measures.put("peak_dbfs", peak);
    measures.put("rms_dbfs", power > 0 ? 10 * StrictMath.log10(power) : null);
    measures.put("clipped_runs", clipped);
    Double left = channels.size() == 2 ? number(channels.get(0).get("rmsDbfs")) : null;
    Double right = channels.size() == 2 ? number(channels.get(1).get("rmsDbfs")) : null;
    measures.put("channel_difference_db", left == null || right == null ? null : left - right);
  }

  private void noise(Map<String, Object> noise) {
    measures.put("noise_place", noise.get("place"));
    measures.put("noise_before_dbfs", meanLevel(noise.get("before")));
    measures.put("noise_after_dbfs", meanLevel(noise.get("after")));
  }

  /** Level of the mean power of the channels. */
  static Double meanLevel(Object sound) {
    List<Map<String, Object>> channels =
        sound instanceof Map<?, ?> map ? maps(map.get("channels")) : List.of();
    double power = 0;
    for (Map<String, Object> channel : channels) {
      Double level = number(channel.get("dbfs"));
      power += level == null ? 0 : StrictMath.pow(10, level / 10) / channels.size();
    }
    return power > 0 ? 10 * StrictMath.log10(power) : null;
  }

  private void rotation(Map<String, Object> rotation) {
    measures.put("turntable_rpm", number(rotation.get("rpm")));
    measures.put("rotation_chance", number(rotation.get("chance")));
    measures.put("scratches", rotation.get("scratches") instanceof List<?> s ? s.size() : null);
  }

  private static Double number(Object value) {
    return value instanceof Number number ? number.doubleValue() : null;
  }

  @SuppressWarnings("unchecked")
  private static List<Map<String, Object>> maps(Object value) {
    return value instanceof List<?> list ? (List<Map<String, Object>>) list : List.of();
  }
}
