package org.groovemend.cli;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.speed.DriftNode;
import org.groovemend.speed.StatedRpm;
import org.groovemend.speed.TimeMap;

/** What a recipe says of the speed of a side. */
final class RecipeSpeed {

  static final List<String> KEYS = List.of("played", "meant", "factor", "drift");
  static final List<String> NODE = List.of("seconds", "factor");

  private RecipeSpeed() {}

  static TimeMap map(YamlMap speed) {
    speed.refuseUnknown(KEYS);
    if (speed.content().isEmpty()) {
      throw speed.refused("", "speed says nothing; give played and meant, a factor, or drift");
    }
    boolean played = speed.has("played");
    if (played != speed.has("meant")) {
      throw speed.refused(
          played ? "played" : "meant", "played and meant tell the speed together; give both");
    }
    if (played && speed.has("factor")) {
      throw speed.refused(
          "factor", "factor and played with meant both tell the speed; give one of them");
    }
    double factor =
        played
            ? rpm(speed, "meant") / rpm(speed, "played")
            : speed.has("factor") ? speed.number("factor") : 1;
    List<DriftNode> drift = new ArrayList<>();
    if (speed.has("drift")) {
      for (Object one : speed.list("drift")) {
        if (!(one instanceof YamlMap node)) {
          throw speed.refused("drift", "drift is a list such as [{seconds: 0, factor: 1.006}]");
        }
        node.refuseUnknown(NODE);
        drift.add(new DriftNode(node.number("seconds"), node.number("factor")));
      }
    }
    String first = speed.has("factor") ? "factor" : played ? "meant" : "drift";
    return speed.within(first, () -> new TimeMap(factor, drift, null));
  }

  private static double rpm(YamlMap speed, String key) {
    return speed.within(key, () -> StatedRpm.parse(speed.text(key))).turnsPerMinute();
  }

  static String basis(YamlMap speed) {
    List<String> words = new ArrayList<>();
    if (speed.has("played")) {
      words.add(
          "played at "
              + speed.text("played")
              + " rpm, made for "
              + speed.text("meant")
              + ", as stated");
    } else if (speed.has("factor")) {
      words.add("factor as stated");
    }
    if (speed.has("drift")) {
      words.add("drift as stated");
    }
    return String.join("; ", words);
  }
}
