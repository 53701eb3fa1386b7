package org.groovemend.cli;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * The "key: value" lines of a YAML 1.2 file or of a part of it, which know where they stand: what
 * is refused is told with file, line and key.
 *
 * @param file its name, for messages
 * @param path of this part from the top, "" for all of it, else such as "sides[0].speed."
 * @param content by key
 * @param lines by path, from 1
 */
record YamlMap(String file, String path, Map<String, Object> content, Map<String, Integer> lines) {

  /**
   * Reads a file.
   *
   * @param kind what it should be, such as "treatment"
   */
  static YamlMap read(Path file, String kind) throws IOException {
    if (Files.isDirectory(file)) {
      throw new UsageException(file + " is a folder; name a " + kind + " file in it");
    }
    String text;
    try {
      text = Files.readString(file);
    } catch (CharacterCodingException e) {
      throw new UsageException(file + " is not a text file in UTF-8");
    }
    return parse(text, file.toString(), kind);
  }

  /** Reads a text. */
  static YamlMap parse(String text, String name, String kind) {
    LoadSettings settings = LoadSettings.builder().setLabel(name).build();
    Object loaded;
    Map<String, Integer> lines = new HashMap<>();
    try {
      loaded = new Load(settings).loadFromString(text);
      Optional<Node> top = new Compose(settings).composeString(text);
      top.ifPresent(node -> note(node, "", lines));
    } catch (MarkedYamlEngineException e) {
      String place = e.getProblemMark().map(mark -> ", line " + (mark.getLine() + 1)).orElse("");
      throw new UsageException(name + place + ": " + e.getProblem());
    } catch (YamlEngineException e) {
      throw new UsageException(name + ": " + e.getMessage());
    }
    if (loaded == null) {
      throw new UsageException(
          name + " is empty; 'groovemend " + example(kind) + "' prints a complete one");
    }
    return new YamlMap(name, "", map(loaded, name, "the file"), lines);
  }

  private static String example(String kind) {
    return switch (kind) {
      case "recipe" -> "deliver --example";
      case "limits" -> "inspect --print-limits general";
      default -> kind;
    };
  }

  private static void note(Node node, String path, Map<String, Integer> lines) {
    if (node instanceof MappingNode mapping) {
      for (NodeTuple one : mapping.getValue()) {
        if (one.getKeyNode() instanceof ScalarNode key) {
          String here = path + key.getValue();
          line(key).ifPresent(line -> lines.put(here, line));
          note(one.getValueNode(), here + ".", lines);
        }
      }
    } else if (node instanceof SequenceNode list) {
      String base = path.endsWith(".") ? path.substring(0, path.length() - 1) : path;
      for (int i = 0; i < list.getValue().size(); i++) {
        Node item = list.getValue().get(i);
        String here = base + "[" + i + "]";
        line(item).ifPresent(line -> lines.put(here, line));
        note(item, here + ".", lines);
      }
    }
  }

  private static Optional<Integer> line(Node node) {
    return node.getStartMark().map(Mark::getLine).map(line -> line + 1);
  }

  private static Map<String, Object> map(Object value, String where, String what) {
    if (!(value instanceof Map<?, ?> raw)) {
      throw new UsageException(where + ": " + what + " does not hold \"key: value\" lines");
    }
    Map<String, Object> map = new LinkedHashMap<>();
    raw.forEach((key, content) -> map.put(String.valueOf(key), content));
    return map;
  }

  boolean has(String key) {
    return content.containsKey(key);
  }

  /** The value, null if there is none. */
  Object get(String key) {
    return content.get(key);
  }

  /** A part that is itself made of keys and values. */
  YamlMap part(String key) {
    return new YamlMap(file, path + key + ".", map(get(key), place(key), path + key), lines);
  }

  /** The parts of a list, each made of keys and values or a single text. */
  List<Object> list(String key) {
    if (!(get(key) instanceof List<?> list)) {
      throw refused(key, path + key + " is no list");
    }
    List<Object> parts = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      String here = key + "[" + i + "]";
      Object one = list.get(i);
      parts.add(
          one instanceof Map
              ? new YamlMap(file, path + here + ".", map(one, place(here), path + here), lines)
              : one);
    }
    return parts;
  }

  /** A text of one line; a number is taken as it is written. */
  String text(String key) {
    Object value = get(key);
    if (value instanceof String || value instanceof Number) {
      return String.valueOf(value);
    }
    throw refused(key, path + key + " is no text");
  }

  double number(String key) {
    if (get(key) instanceof Number number) {
      return number.doubleValue();
    }
    throw refused(key, path + key + " \"" + get(key) + "\" is no number");
  }

  boolean truth(String key) {
    if (get(key) instanceof Boolean truth) {
      return truth;
    }
    throw refused(key, path + key + " \"" + get(key) + "\" is neither true nor false");
  }

  long whole(String key) {
    if (get(key) instanceof Integer || get(key) instanceof Long) {
      return ((Number) get(key)).longValue();
    }
    throw refused(key, path + key + " \"" + get(key) + "\" is no whole number");
  }

  /** Refuses keys that do not exist. */
  void refuseUnknown(List<String> known) {
    for (String key : content.keySet()) {
      if (!known.contains(key)) {
        throw refused(key, "there is no setting \"" + path + key + "\"" + Nearest.hint(key, known));
      }
    }
  }

  UsageException refused(String key, String sentence) {
    return new UsageException(place(key) + ": " + sentence);
  }

  private String place(String key) {
    Integer line = lines.get(path + key);
    if (line == null && !path.isEmpty()) {
      line = lines.get(path.substring(0, path.length() - 1));
    }
    return line == null ? file : file + ", line " + line;
  }

  /** What a value that is refused says, with its place. */
  <T> T within(String key, java.util.function.Supplier<T> making) {
    try {
      return making.get();
    } catch (IllegalArgumentException e) {
      throw refused(key, Usage.words(e));
    }
  }
}
