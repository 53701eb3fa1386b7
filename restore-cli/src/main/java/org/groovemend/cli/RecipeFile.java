package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.job.deliver.Recipe;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;
import org.groovemend.speed.TimeMap;

/**
 * Reads a recipe file (YAML 1.2). Strict as treatment files are: what is unknown, of a wrong kind,
 * out of range or without effect is refused. Files are looked for from the folder of the recipe.
 */
final class RecipeFile {

  static final List<String> TOP =
      List.of(
          "recipe",
          "sides",
          "treatment",
          "speed",
          "tags",
          "cover",
          "disc",
          "bands",
          "copies",
          "bag",
          "ditherSeed");
  static final List<String> SIDE =
      List.of(
          "transfer", "ledger", "treatment", "leadIn", "speed", "tags", "cover", "disc", "bands");

  private final YamlMap top;
  private final RecipeFacts facts;

  private RecipeFile(YamlMap top, Path folder) {
    this.top = top;
    this.facts = new RecipeFacts(top, folder);
  }

  /**
   * @param sides named elsewhere; if there are any, the recipe must name none
   */
  static Recipe read(Path file, List<Path> sides) throws IOException {
    Path parent = file.toAbsolutePath().getParent();
    return of(YamlMap.read(file, "recipe"), parent == null ? Path.of("") : parent, sides);
  }

  static Recipe of(YamlMap top, Path folder, List<Path> sides) throws IOException {
    return new RecipeFile(top, folder).recipe(sides);
  }

  private Recipe recipe(List<Path> named) throws IOException {
    top.refuseUnknown(TOP);
    if (!Integer.valueOf(Recipe.FILE_VERSION).equals(top.get("recipe"))) {
      throw top.refused(
          "recipe",
          "\"recipe: "
              + Recipe.FILE_VERSION
              + "\" must say the version of the file's form, but it says "
              + (top.get("recipe") == null ? "nothing" : top.get("recipe")));
    }
    List<CopyWish> copies = RecipeCopies.of(top);
    if (copies.stream().noneMatch(CopyWish::bands)) {
      requireNoBands(top);
    }
    boolean made = copies.stream().anyMatch(copy -> copy.kind() != CopyKind.PRESERVATION);
    if (!made) {
      for (String key : List.of("treatment", "speed", "tags", "cover", "ditherSeed")) {
        requireUse(top, key);
      }
    }
    List<Recipe.Side> sides = new ArrayList<>();
    if (top.has("sides")) {
      if (!named.isEmpty()) {
        throw top.refused(
            "sides",
            "sides are named in the recipe and behind it; name them in one of the two places");
      }
      for (Object one : top.list("sides")) {
        sides.add(one instanceof YamlMap side ? side(side, made) : side(facts.path(one, "sides")));
      }
    }
    for (Path side : named) {
      sides.add(side(side));
    }
    Map<String, String> bag = bag();
    long seed = top.has("ditherSeed") ? top.whole("ditherSeed") : 1;
    return new Recipe(sides, copies, bag, seed);
  }

  private void requireNoBands(YamlMap owner) {
    if (owner.has("bands")) {
      throw owner.refused(
          "bands",
          "\"bands\" would have no effect: no copy is to be cut; give one \"bands: true\"");
    }
    if (owner == top && top.has("sides")) {
      for (Object side : top.list("sides")) {
        if (side instanceof YamlMap map) {
          requireNoBands(map);
        }
      }
    }
  }

  private static void requireUse(YamlMap map, String key) {
    if (map.has(key)) {
      throw map.refused(
          key,
          "\""
              + key
              + "\" would have no effect: only preservation copies are wanted, which are left as they are");
    }
  }

  private Recipe.Side side(Path transfer) throws IOException {
    return new Recipe.Side(
        transfer,
        null,
        treatment(null),
        null,
        speed(top),
        basis(top),
        facts.tags(null),
        facts.disc(null),
        facts.bands(top));
  }

  private Recipe.Side side(YamlMap side, boolean made) throws IOException {
    side.refuseUnknown(SIDE);
    if (!side.has("transfer")) {
      throw side.refused("", "a side names its transfer: \"transfer: side.wav\"");
    }
    if (!made) {
      SIDE.stream()
          .filter(key -> !List.of("transfer", "disc").contains(key))
          .forEach(key -> requireUse(side, key));
    }
    Path ledger = null;
    if (side.has("ledger")) {
      for (String key : List.of("treatment", "leadIn")) {
        if (side.has(key)) {
          throw side.refused(
              key,
              "\""
                  + key
                  + "\" would have no effect: the side was treated already, as its ledger says");
        }
      }
      ledger = facts.path(side.get("ledger"), "ledger");
    }
    YamlMap speed = side.has("speed") ? side : top;
    return new Recipe.Side(
        facts.path(side.get("transfer"), "transfer"),
        ledger,
        ledger == null ? treatment(side) : null,
        side.has("leadIn")
            ? side.within("leadIn", () -> TimeRange.parse(side.text("leadIn")))
            : null,
        speed(speed),
        basis(speed),
        facts.tags(side),
        facts.disc(side),
        facts.bands(side.has("bands") ? side : top));
  }

  /** That of all sides, with what the side has of its own laid over it. */
  private Treatment treatment(YamlMap side) throws IOException {
    Map<String, Object> all = new LinkedHashMap<>();
    YamlMap last = null;
    for (YamlMap owner : side == null ? List.of(top) : List.of(top, side)) {
      if (owner.has("treatment")) {
        last = treatmentOf(owner);
        lay(last.content(), all);
      }
    }
    if (last == null) {
      return Treatment.defaults();
    }
    return TreatmentFile.within(new YamlMap(last.file(), last.path(), all, last.lines()));
  }

  private YamlMap treatmentOf(YamlMap owner) throws IOException {
    if (owner.get("treatment") instanceof Map) {
      YamlMap inline = owner.part("treatment");
      TreatmentFile.within(inline);
      return inline;
    }
    YamlMap file = YamlMap.read(facts.path(owner.get("treatment"), "treatment"), "treatment");
    TreatmentFile.of(file);
    Map<String, Object> content = new LinkedHashMap<>(file.content());
    content.remove("treatment");
    return new YamlMap(file.file(), file.path(), content, file.lines());
  }

  @SuppressWarnings("unchecked")
  private static void lay(Map<String, Object> over, Map<String, Object> all) {
    over.forEach(
        (key, value) -> {
          if (value instanceof Map && all.get(key) instanceof Map) {
            Map<String, Object> both = new LinkedHashMap<>((Map<String, Object>) all.get(key));
            both.putAll((Map<String, Object>) value);
            all.put(key, both);
          } else {
            all.put(key, value);
          }
        });
  }

  private static TimeMap speed(YamlMap owner) {
    return owner.has("speed") ? RecipeSpeed.map(owner.part("speed")) : TimeMap.of(1);
  }

  private static String basis(YamlMap owner) {
    return owner.has("speed")
        ? RecipeSpeed.basis(owner.part("speed"))
        : "the speed was left as it is";
  }

  private Map<String, String> bag() {
    if (!top.has("bag") || Boolean.FALSE.equals(top.get("bag"))) {
      return null;
    }
    if (Boolean.TRUE.equals(top.get("bag"))) {
      return Map.of();
    }
    YamlMap bag = top.part("bag");
    Map<String, String> info = new LinkedHashMap<>();
    bag.content().keySet().forEach(label -> info.put(label, bag.text(label)));
    return info;
  }
}
