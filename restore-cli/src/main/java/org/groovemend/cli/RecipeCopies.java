package org.groovemend.cli;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.groovemend.deliverable.Container;
import org.groovemend.deliverable.CopyKind;
import org.groovemend.deliverable.CopyWish;
import org.groovemend.deliverable.Depth;
import org.groovemend.deliverable.LoudnessWish;

/** What a recipe says of the copies that are wanted. */
final class RecipeCopies {

  static final List<String> COPY =
      List.of("copy", "name", "format", "rate", "depth", "gain", "loudness", "bands");
  static final List<String> LOUDNESS = List.of("target", "per", "peak");

  /** Highest true peak of a copy that was brought to a loudness, if nothing is said. */
  static final double PEAK_DBTP = -1;

  private RecipeCopies() {}

  /** The copies that are wanted of every side. */
  static List<CopyWish> of(YamlMap top) {
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
}
