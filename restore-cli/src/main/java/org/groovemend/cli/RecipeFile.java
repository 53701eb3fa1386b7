package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.bands.BandList;
import org.groovemend.bands.BandListException;
import org.groovemend.bands.BandWish;
import org.groovemend.deliverable.Container;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.Depth;
import org.groovemend.deliverable.FileTags;
import org.groovemend.deliverable.LoudnessWish;
import org.groovemend.job.BandListFile;
import org.groovemend.job.Recipe;
import org.groovemend.job.TimeRange;
import org.groovemend.job.Treatment;
import org.groovemend.speed.TimeMap;
import org.groovemend.tags.Cover;
import org.groovemend.tags.TagField;
import org.groovemend.tags.Tags;
import org.groovemend.technical.Disc;
import org.groovemend.technical.DiscProperty;

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
  static final List<String> COPY =
      List.of("copy", "name", "format", "rate", "depth", "gain", "loudness", "bands");
  static final List<String> BANDS = List.of("list", "count", "exact", "within", "preRoll");
  static final List<String> LOUDNESS = List.of("target", "per", "peak");

  /** Highest true peak of a copy that was brought to a loudness, if nothing is said. */
  static final double PEAK_DBTP = -1;

  private final YamlMap top;
  private final Path folder;

  private RecipeFile(YamlMap top, Path folder) {
    this.top = top;
    this.folder = folder;
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
    List<CopyWish> copies = copies();
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
        sides.add(one instanceof YamlMap side ? side(side, made) : side(path(one, "sides")));
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

  private BandWish bands(YamlMap owner) throws IOException {
    if (!owner.has("bands")) {
      return null;
    }
    if ("find".equals(owner.get("bands"))) {
      return BandWish.found();
    }
    if (owner.get("bands") instanceof String) {
      return bands(owner, BandListFile.read(path(owner.get("bands"), "bands")), owner, List.of());
    }
    YamlMap part = owner.part("bands");
    part.refuseUnknown(BANDS);
    BandList list =
        part.has("list") ? BandListFile.read(path(part.get("list"), "bands.list")) : null;
    return bands(owner, list, part, BANDS);
  }

  /** The list named alone, or with what else is said. */
  private static BandWish bands(YamlMap owner, BandList list, YamlMap part, List<String> keys) {
    boolean more = !keys.isEmpty();
    try {
      return new BandWish(
          list,
          more && part.has("count") ? (int) part.whole("count") : 0,
          more && part.has("exact") && part.truth("exact"),
          more && part.has("within") ? part.number("within") : BandWish.WITHIN_SECONDS,
          more && part.has("preRoll") ? part.number("preRoll") : BandWish.PRE_ROLL_SECONDS,
          true);
    } catch (BandListException e) {
      throw owner.refused("bands", e.getMessage());
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

  private Path path(Object value, String key) {
    if (value instanceof String text && !text.isBlank()) {
      Path path = folder.resolve(text);
      Usage.fileName(path);
      return path;
    }
    throw top.refused(key, "\"" + value + "\" names no file");
  }

  private Recipe.Side side(Path transfer) throws IOException {
    return new Recipe.Side(
        transfer,
        null,
        treatment(null),
        null,
        speed(top),
        basis(top),
        tags(null),
        disc(null),
        bands(top));
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
      ledger = path(side.get("ledger"), "ledger");
    }
    YamlMap speed = side.has("speed") ? side : top;
    return new Recipe.Side(
        path(side.get("transfer"), "transfer"),
        ledger,
        ledger == null ? treatment(side) : null,
        side.has("leadIn")
            ? side.within("leadIn", () -> TimeRange.parse(side.text("leadIn")))
            : null,
        speed(speed),
        basis(speed),
        tags(side),
        disc(side),
        bands(side.has("bands") ? side : top));
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
    YamlMap file = YamlMap.read(path(owner.get("treatment"), "treatment"), "treatment");
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

  private FileTags tags(YamlMap side) throws IOException {
    Map<TagField, String> texts = new EnumMap<>(TagField.class);
    Cover cover = null;
    YamlMap last = top;
    for (YamlMap owner : side == null ? List.of(top) : List.of(top, side)) {
      if (owner.has("tags")) {
        YamlMap tags = owner.part("tags");
        tags.refuseUnknown(tagKeys());
        for (TagField field : TagField.values()) {
          if (tags.has(field.key())) {
            texts.put(field, tags.text(field.key()));
          }
        }
        last = owner;
      }
      if (owner.has("cover")) {
        cover = Cover.read(path(owner.get("cover"), "cover"));
      }
    }
    Cover picture = cover;
    return last.within("tags", () -> new FileTags(new Tags(texts), picture));
  }

  private Disc disc(YamlMap side) {
    Map<DiscProperty, String> stated = new EnumMap<>(DiscProperty.class);
    YamlMap last = top;
    for (YamlMap owner : side == null ? List.of(top) : List.of(top, side)) {
      if (owner.has("disc")) {
        YamlMap disc = owner.part("disc");
        disc.refuseUnknown(discKeys());
        for (DiscProperty property : DiscProperty.values()) {
          if (disc.has(property.key())) {
            stated.put(property, disc.text(property.key()));
          }
        }
        last = owner;
      }
    }
    return stated.isEmpty() ? null : last.within("disc", () -> new Disc(stated));
  }

  static List<String> discKeys() {
    return Arrays.stream(DiscProperty.values()).map(DiscProperty::key).toList();
  }

  static List<String> tagKeys() {
    return Arrays.stream(TagField.values()).map(TagField::key).toList();
  }

  private List<CopyWish> copies() {
    if (!top.has("copies")) {
      return List.of(CopyWish.preservation(), CopyWish.of(CopyKind.SERVICE, Container.FLAC));
    }
    List<CopyWish> copies = new ArrayList<>();
    for (Object one : top.list("copies")) {
      if (!(one instanceof YamlMap copy)) {
        throw top.refused(
            "copies", "a copy is told as \"copy: service\", with what else it is to be");
      }
      copies.add(copy(copy));
    }
    return copies;
  }

  private static CopyWish copy(YamlMap copy) {
    copy.refuseUnknown(COPY);
    List<String> kinds = Arrays.stream(CopyKind.values()).map(CopyKind::key).toList();
    CopyKind kind =
        CopyKind.ofKey(String.valueOf(copy.get("copy")))
            .orElseThrow(() -> unknown(copy, "copy", kinds));
    boolean made = kind != CopyKind.PRESERVATION;
    List<String> formats = Arrays.stream(Container.values()).map(Container::key).toList();
    Container container =
        copy.has("format")
            ? Container.ofKey(copy.text("format"))
                .orElseThrow(() -> unknown(copy, "format", formats))
            : made ? Container.FLAC : null;
    Depth depth =
        copy.has("depth")
            ? Depth.ofKey(copy.text("depth"))
                .orElseThrow(
                    () ->
                        unknown(
                            copy, "depth", Arrays.stream(Depth.values()).map(Depth::key).toList()))
            : null;
    String first = copy.has("copy") ? "copy" : "";
    return copy.within(
        first,
        () ->
            new CopyWish(
                kind,
                copy.has("name") ? copy.text("name") : kind.key(),
                container,
                copy.has("rate") ? rate(copy) : 0,
                depth,
                copy.has("gain") ? copy.number("gain") : 0,
                copy.has("loudness") ? loudness(copy) : null,
                copy.has("bands") && copy.truth("bands")));
  }

  private static int rate(YamlMap copy) {
    long rate = copy.whole("rate");
    if (rate < 1 || rate > Integer.MAX_VALUE) {
      throw copy.refused("rate", "rate " + rate + " is no sampling rate; give such as 48000");
    }
    return (int) rate;
  }

  private static LoudnessWish loudness(YamlMap copy) {
    if (copy.get("loudness") instanceof Number target) {
      return new LoudnessWish(target.doubleValue(), false, PEAK_DBTP);
    }
    YamlMap wish = copy.part("loudness");
    wish.refuseUnknown(LOUDNESS);
    if (!wish.has("target")) {
      throw wish.refused("", "a loudness names its target, such as \"target: -23\"");
    }
    String per = wish.has("per") ? wish.text("per") : "side";
    if (!List.of("side", "set").contains(per)) {
      throw unknown(wish, "per", List.of("side", "set"));
    }
    return new LoudnessWish(
        wish.number("target"),
        per.equals("set"),
        wish.has("peak") ? wish.number("peak") : PEAK_DBTP);
  }

  private static UsageException unknown(YamlMap map, String key, List<String> known) {
    String said = String.valueOf(map.get(key));
    return map.refused(
        key,
        map.path()
            + key
            + (map.has(key) ? " \"" + said + "\"" : " is missing; it")
            + " is not one of "
            + String.join(", ", known)
            + Nearest.hint(said, known));
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
