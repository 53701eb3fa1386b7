package org.groovemend.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.groovemend.limits.Judgement;
import org.groovemend.limits.Limit;
import org.groovemend.limits.LimitProfile;
import org.groovemend.limits.Measure;

/** Limits from a YAML file, those that come with the program or a house's own. */
final class LimitsFile {
  static final List<String> BUILT_IN = List.of("general", "shellac", "microgroove", "lacquer");

  private static final List<String> TOP = List.of("name", "about", "based-on", "limits");
  private static final List<String> BOUNDS =
      List.of(
          "look-below",
          "redo-below",
          "look-above",
          "redo-above",
          "expected",
          "otherwise",
          "source");

  private LimitsFile() {}

  /** A built-in profile by name, else a file. */
  static LimitProfile of(String nameOrFile) throws IOException {
    if (BUILT_IN.contains(nameOrFile)) {
      return read(YamlMap.parse(text(nameOrFile), nameOrFile + ".yaml", "limits"), false);
    }
    Path file = Path.of(nameOrFile);
    if (!Files.exists(file)) {
      throw new UsageException(
          "there are no limits \""
              + nameOrFile
              + "\" and no such file"
              + Nearest.hint(nameOrFile, BUILT_IN)
              + "; the built-in ones are "
              + String.join(", ", BUILT_IN));
    }
    return read(YamlMap.read(file, "limits"), true);
  }

  /** The text of a built-in profile. */
  static String text(String name) {
    try (InputStream in = LimitsFile.class.getResourceAsStream("limits/" + name + ".yaml")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static LimitProfile read(YamlMap map, boolean own) throws IOException {
    map.refuseUnknown(TOP);
    Map<Measure, Limit> limits = new EnumMap<>(Measure.class);
    if (map.has("based-on")) {
      String base = map.text("based-on");
      if (!BUILT_IN.contains(base)) {
        throw map.refused(
            "based-on",
            "\""
                + base
                + "\" does not come with the program"
                + Nearest.hint(base, BUILT_IN)
                + "; name one of "
                + String.join(", ", BUILT_IN));
      }
      limits.putAll(of(base).limits());
    }
    if (!map.has("limits")) {
      throw new UsageException(
          map.file()
              + ": there is no \"limits\"; 'groovemend inspect --print-limits general' prints some");
    }
    YamlMap lines = map.part("limits");
    lines.refuseUnknown(Measure.keys());
    for (String key : lines.content().keySet()) {
      limits.put(Measure.ofKey(key), limit(lines.part(key), Measure.ofKey(key)));
    }
    String name = map.has("name") ? map.text("name") : own ? map.file() : "";
    return new LimitProfile(name, map.has("about") ? map.text("about") : "", limits);
  }

  private static Limit limit(YamlMap line, Measure measure) {
    line.refuseUnknown(BOUNDS);
    if (!line.has("source")) {
      throw line.refused(
          "source",
          line.path()
              + "source is missing; say where the limit is from, or \"common practice, no source\"");
    }
    boolean words = !measure.words().isEmpty();
    for (String key : line.content().keySet()) {
      boolean ofWords = key.equals("expected") || key.equals("otherwise");
      if (!key.equals("source") && ofWords != words) {
        throw line.refused(
            key,
            measure.key()
                + (words
                    ? " is one of the words "
                        + String.join(", ", measure.words())
                        + "; give expected and otherwise"
                    : " is a number; give look-below, look-above, redo-below or redo-above"));
      }
    }
    List<String> expected = new ArrayList<>();
    if (line.has("expected")) {
      for (Object word : line.list("expected")) {
        if (!measure.words().contains(String.valueOf(word))) {
          throw line.refused(
              "expected",
              "\""
                  + word
                  + "\" is nothing that "
                  + measure.key()
                  + " can be"
                  + Nearest.hint(String.valueOf(word), measure.words())
                  + "; it is one of "
                  + String.join(", ", measure.words()));
        }
        expected.add(String.valueOf(word));
      }
    }
    return line.within(
        "source",
        () ->
            new Limit(
                bound(line, "look-below"),
                bound(line, "redo-below"),
                bound(line, "look-above"),
                bound(line, "redo-above"),
                expected,
                otherwise(line),
                line.text("source")));
  }

  private static double bound(YamlMap line, String key) {
    return line.has(key) ? line.number(key) : Double.NaN;
  }

  private static Judgement otherwise(YamlMap line) {
    if (!line.has("otherwise") || "look".equals(line.get("otherwise"))) {
      return Judgement.LOOK;
    }
    if ("redo".equals(line.get("otherwise"))) {
      return Judgement.REDO;
    }
    throw line.refused("otherwise", line.path() + "otherwise is look or redo");
  }
}
