package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.batch.FoundSide;

/**
 * A file of rules (YAML 1.2): which series of a collection are treated otherwise, and what holds
 * for all sides of a disc. Strict as treatment files are.
 */
final class BatchRules {

  static final int FILE_VERSION = 1;

  private static final List<String> TOP = List.of("rules", "series", "discs");
  private static final List<String> SERIES =
      List.of("name", "path", "disc", "side", "series", "facts", "treatment");
  private static final List<String> DISC = List.of("treatment", "grooveOf");

  /** Nothing differs. */
  static final BatchRules NONE = new BatchRules(List.of(), Map.of());

  /** What is known of a side that rules can ask for. */
  record Known(
      FoundSide found, String disc, String side, String series, Map<String, Object> facts) {}

  /** One series: all conditions must hold. */
  private record Series(String name, Map<String, PathMatcher> conditions, BatchLayer layer) {

    boolean holds(Known side) {
      for (Map.Entry<String, PathMatcher> condition : conditions.entrySet()) {
        Object value =
            switch (condition.getKey()) {
              case "path" -> side.found().place();
              case "disc" -> side.disc();
              case "side" -> side.side();
              case "series" -> side.series();
              default -> side.facts().get(condition.getKey().substring("facts.".length()));
            };
        if (value == null || !condition.getValue().matches(Path.of(String.valueOf(value)))) {
          return false;
        }
      }
      return true;
    }
  }

  private final List<Series> series;
  private final Map<String, BatchLayer> discs;

  private BatchRules(List<Series> series, Map<String, BatchLayer> discs) {
    this.series = series;
    this.discs = discs;
  }

  static BatchRules read(Path file) throws IOException {
    YamlMap top = YamlMap.read(file, "batch --example");
    Path folder = file.toAbsolutePath().getParent();
    top.refuseUnknown(TOP);
    if (!Integer.valueOf(FILE_VERSION).equals(top.get("rules"))) {
      throw top.refused(
          "rules",
          "\"rules: "
              + FILE_VERSION
              + "\" must say the version of the file's form, but it says "
              + (top.get("rules") == null ? "nothing" : top.get("rules")));
    }
    List<Series> series = new ArrayList<>();
    if (top.has("series")) {
      for (Object one : top.list("series")) {
        if (!(one instanceof YamlMap map)) {
          throw top.refused("series", "a series has a name, conditions and a treatment");
        }
        series.add(series(map, folder));
      }
    }
    Map<String, BatchLayer> discs = new LinkedHashMap<>();
    if (top.has("discs")) {
      YamlMap all = top.part("discs");
      for (String disc : all.content().keySet()) {
        YamlMap map = all.part(disc);
        map.refuseUnknown(DISC);
        discs.put(
            disc,
            new BatchLayer(
                treatment(map), null, map.has("grooveOf") ? map.text("grooveOf") : null, folder));
      }
    }
    return new BatchRules(series, discs);
  }

  private static YamlMap treatment(YamlMap map) {
    if (!map.has("treatment")) {
      return null;
    }
    YamlMap treatment = map.part("treatment");
    // wrong settings are told before any side is looked for
    TreatmentFile.within(treatment);
    return treatment;
  }

  private static Series series(YamlMap map, Path folder) {
    map.refuseUnknown(SERIES);
    if (!map.has("name") || !map.has("treatment")) {
      throw map.refused("name", "a series needs a name and a treatment");
    }
    Map<String, PathMatcher> conditions = new LinkedHashMap<>();
    for (String key : List.of("path", "disc", "side", "series")) {
      if (map.has(key)) {
        conditions.put(key, matcher(map, key));
      }
    }
    if (map.has("facts")) {
      YamlMap facts = map.part("facts");
      for (String fact : facts.content().keySet()) {
        conditions.put("facts." + fact, matcher(facts, fact));
      }
    }
    if (conditions.isEmpty()) {
      throw map.refused(
          "name",
          "the series \"" + map.get("name") + "\" has no condition; give path, disc or facts");
    }
    return new Series(
        map.text("name"), conditions, new BatchLayer(treatment(map), null, null, folder));
  }

  private static PathMatcher matcher(YamlMap map, String key) {
    String pattern = map.text(key);
    return map.within(key, () -> FileSystems.getDefault().getPathMatcher("glob:" + pattern));
  }

  /** Names of the series that a side belongs to. */
  List<String> names(Known side) {
    return series.stream().filter(one -> one.holds(side)).map(Series::name).toList();
  }

  /** What these rules say of a side, the general first. */
  List<BatchLayer> layers(Known side) {
    List<BatchLayer> layers = new ArrayList<>();
    series.stream().filter(one -> one.holds(side)).forEach(one -> layers.add(one.layer()));
    BatchLayer disc = side.disc() == null ? null : discs.get(side.disc());
    if (disc != null) {
      layers.add(disc);
    }
    return layers;
  }
}
