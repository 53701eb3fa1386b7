package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.groovemend.bands.BandList;
import org.groovemend.bands.BandListException;
import org.groovemend.bands.BandWish;
import org.groovemend.deliverable.FileTags;
import org.groovemend.job.bands.BandListFile;
import org.groovemend.tags.Cover;
import org.groovemend.tags.TagField;
import org.groovemend.tags.Tags;
import org.groovemend.technical.Disc;
import org.groovemend.technical.DiscProperty;

/**
 * What a recipe says of a side besides its treatment and speed: tags, disc, bands.
 *
 * @param top the recipe
 * @param folder where its files are looked for
 */
record RecipeFacts(YamlMap top, Path folder) {

  static final List<String> BANDS = List.of("list", "count", "exact", "within", "preRoll");

  /** A file that a value names. */
  Path path(Object value, String key) {
    if (value instanceof String text && !text.isBlank()) {
      Path path = folder.resolve(text);
      Usage.fileName(path);
      return path;
    }
    throw top.refused(key, "\"" + value + "\" names no file");
  }

  /** Those of all sides, with what the side has of its own laid over them. */
  FileTags tags(YamlMap side) throws IOException {
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

  /** The same of the disc; null if nothing is stated. */
  Disc disc(YamlMap side) {
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

  /** How copies are cut, or null. */
  BandWish bands(YamlMap owner) throws IOException {
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
}
