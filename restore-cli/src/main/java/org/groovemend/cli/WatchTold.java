package org.groovemend.cli;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.groovemend.job.inspect.SideInspection;
import org.groovemend.limits.Findings;
import org.groovemend.limits.Judgement;

/**
 * A verdict in one line.
 *
 * @param verdict of the side
 * @param measure the weightiest finding; null if nothing asks for anybody
 * @param reason that finding in words, or what there is to say without one
 * @param redo how many findings ask for another transfer
 * @param look how many ask for a person
 */
record WatchTold(Judgement verdict, String measure, String reason, int redo, int look) {

  static WatchTold of(SideInspection side) {
    return of(InspectionView.json(side));
  }

  /** From {@code side} of inspection.schema.json. */
  static WatchTold of(JsonNode side) {
    List<JsonNode> all = new ArrayList<>();
    side.get("findings").forEach(all::add);
    int redo = count(all, Judgement.REDO);
    int look = count(all, Judgement.LOOK);
    int unknown = count(all, Judgement.UNKNOWN);
    Judgement verdict = redo > 0 ? Judgement.REDO : look > 0 ? Judgement.LOOK : Judgement.FINE;
    if (verdict == Judgement.FINE) {
      String rest = unknown == 0 ? "" : "; " + unknown + " measures could not be told";
      return new WatchTold(verdict, null, "nothing is outside the limits" + rest, 0, 0);
    }
    JsonNode first = weightiest(all, verdict);
    String unit = first.get("unit").asText();
    String limit = first.at("/limit/words").asText();
    JsonNode place = first.at("/places/0");
    StringBuilder reason = new StringBuilder(first.get("label").asText());
    reason.append(' ').append(first.get("text").asText());
    if (!unit.isEmpty() && !first.get("value").isNull()) {
      reason.append(' ').append(unit);
    }
    reason.append(limit.equals("none") ? "" : " (" + limit + ")");
    if (!place.isMissingNode()) {
      reason.append(", at ").append(EditsCommand.time(place.get("fromSeconds").asDouble()));
    }
    return new WatchTold(
        verdict, first.get("id").asText(), reason + more(verdict, redo, look), redo, look);
  }

  private static String more(Judgement verdict, int redo, int look) {
    int same = (verdict == Judgement.REDO ? redo : look) - 1;
    String text = same > 0 ? "; " + same + " more like it" : "";
    return verdict == Judgement.REDO && look > 0 ? text + "; " + look + " to look at" : text;
  }

  private static int count(List<JsonNode> findings, Judgement verdict) {
    return (int) findings.stream().filter(f -> is(f, verdict)).count();
  }

  private static boolean is(JsonNode finding, Judgement verdict) {
    return finding.get("verdict").asText().equals(verdict.key());
  }

  private static JsonNode weightiest(List<JsonNode> findings, Judgement verdict) {
    return findings.stream()
        .filter(f -> is(f, verdict))
        .min(Comparator.comparingInt(f -> Findings.rank(f.get("id").asText())))
        .orElseThrow();
  }
}
