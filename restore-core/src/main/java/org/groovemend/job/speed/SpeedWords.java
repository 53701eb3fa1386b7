package org.groovemend.job.speed;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.speed.SpeedEvidence;
import org.groovemend.speed.SpeedFinding;
import org.groovemend.speed.TuningFinding;
import org.groovemend.speed.WowFinding;
import org.groovemend.speed.WowWeighting;

/** What was heard about the speed of a side, for machines. */
public final class SpeedWords {
  private SpeedWords() {}

  /** Names and numbers, to be written as JSON; null for what is not known. */
  public static Map<String, Object> asMap(SpeedFinding finding) {
    Map<String, Object> all = new LinkedHashMap<>();
    List<Map<String, Object>> evidence = new ArrayList<>();
    for (SpeedEvidence one : finding.estimate().evidence()) {
      evidence.add(asMap(one));
    }
    all.put("evidence", evidence);
    SpeedEvidence together = finding.estimate().together();
    all.put("together", together == null ? null : asMap(together));
    all.put("doubts", finding.estimate().doubts());
    all.put("tuning", asMap(finding.tuning()));
    all.put("wow", asMap(finding.wow()));
    all.put("hum", finding.hum() == null ? null : finding.hum().reason());
    return all;
  }

  private static Map<String, Object> asMap(SpeedEvidence one) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("kind", one.kind().name());
    map.put("factor", one.factor());
    map.put("low", one.low());
    map.put("high", one.high());
    map.put("why", one.words());
    return map;
  }

  private static Map<String, Object> asMap(TuningFinding tuning) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("found", tuning.found());
    map.put("a4Hz", tuning.a4Hz());
    map.put("cents", tuning.cents());
    map.put("halfCents", tuning.halfCents());
    map.put("notesOfTheScale", tuning.pitches());
    List<Map<String, Object>> moments = new ArrayList<>();
    for (TuningFinding.Moment moment : tuning.overTime()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("seconds", moment.seconds());
      one.put("cents", moment.cents());
      one.put("halfCents", moment.halfCents());
      moments.add(one);
    }
    map.put("overTime", moments);
    map.put("reason", tuning.reason());
    return map;
  }

  private static Map<String, Object> asMap(WowFinding wow) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("found", wow.found());
    map.put("peakPercentMidSide", 100 * wow.peak());
    map.put("peakHalfPercent", 100 * wow.peakHalf());
    map.put(
        "weightedPeakPercentStart",
        wow.found() ? 100 * WowWeighting.weightedPeak(wow.wow(), 0) : null);
    map.put("chance", wow.chance());
    map.put("turnHalfSeconds", wow.turnSecondsHalf());
    map.put("growthFitted", wow.radiusFitted());
    map.put("model", wow.found() ? SpeedRecord.asMap(wow.wow()) : null);
    map.put("reason", wow.reason());
    return map;
  }
}
