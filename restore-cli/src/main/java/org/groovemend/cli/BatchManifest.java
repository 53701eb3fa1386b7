package org.groovemend.cli;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvParser;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.job.side.TimeRange;
import org.groovemend.stage.StageId;

/**
 * A list of sides with what is known of them: a table (CSV, RFC 4180, UTF-8, a header line first)
 * or JSON Lines. A line without a path speaks of all sides of its disc.
 */
final class BatchManifest {

  private static final List<String> KEYS =
      List.of("path", "disc", "side", "series", "leadIn", "grooveOf", "treatment", "facts");

  private static final TypeReference<Map<String, Object>> MAP = new TypeReference<>() {};

  /**
   * One line.
   *
   * @param where file and line, for messages
   * @param path of the side, null for a line that speaks of a disc
   */
  record Entry(
      String where,
      Path path,
      String disc,
      String side,
      String series,
      Map<String, Object> facts,
      BatchLayer layer) {}

  private final Path file;
  private final Path folder;
  private final List<Entry> entries = new ArrayList<>();

  private BatchManifest(Path file) {
    this.file = file;
    this.folder = file.toAbsolutePath().getParent();
  }

  /** Whether a file is a manifest, by its name. */
  static boolean isOne(Path file) {
    String name = Usage.fileName(file).toLowerCase(Locale.ROOT);
    return name.endsWith(".csv") || name.endsWith(".jsonl") || name.endsWith(".ndjson");
  }

  static List<Entry> read(Path file) throws IOException {
    BatchManifest manifest = new BatchManifest(file);
    try {
      if (Usage.fileName(file).toLowerCase(Locale.ROOT).endsWith(".csv")) {
        manifest.table();
      } else {
        manifest.lines();
      }
    } catch (CharacterCodingException e) {
      throw new UsageException(file + " is not a text file in UTF-8");
    } catch (JsonProcessingException e) {
      throw new UsageException(
          file + ", line " + e.getLocation().getLineNr() + ": " + e.getOriginalMessage());
    }
    if (manifest.entries.isEmpty()) {
      throw new UsageException(file + " names no side");
    }
    return manifest.entries;
  }

  private void table() throws IOException {
    ObjectReader reader =
        CsvMapper.builder()
            .enable(CsvParser.Feature.TRIM_SPACES)
            .enable(CsvParser.Feature.SKIP_EMPTY_LINES)
            .enable(CsvParser.Feature.FAIL_ON_MISSING_COLUMNS)
            .build()
            .readerFor(MAP)
            .with(CsvSchema.emptySchema().withHeader());
    try (BufferedReader text = withoutMark(Files.newBufferedReader(file, StandardCharsets.UTF_8));
        MappingIterator<Map<String, Object>> rows = reader.readValues(text)) {
      while (rows.hasNextValue()) {
        Map<String, Object> row = rows.nextValue();
        String where = file + ", line " + rows.getCurrentLocation().getLineNr();
        entries.add(entry(where, nested(row, where)));
      }
    }
  }

  /** Office programs begin a table with a byte order mark. */
  private static BufferedReader withoutMark(BufferedReader text) throws IOException {
    text.mark(1);
    if (text.read() != '\uFEFF') {
      text.reset();
    }
    return text;
  }

  /** Columns such as "noise.reductionDb" become settings; columns of other names are facts. */
  private static Map<String, Object> nested(Map<String, Object> row, String where) {
    Map<String, Object> result = new LinkedHashMap<>();
    Map<String, Object> treatment = new LinkedHashMap<>();
    Map<String, Object> facts = new LinkedHashMap<>();
    for (Map.Entry<String, Object> cell : row.entrySet()) {
      String name = cell.getKey().strip();
      String text = String.valueOf(cell.getValue()).strip();
      if (text.isEmpty() || cell.getValue() == null) {
        continue;
      }
      int dot = name.indexOf('.');
      if (KEYS.contains(name) && !name.equals("treatment") && !name.equals("facts")) {
        result.put(name, text);
      } else if (name.equals("captured")) {
        treatment.put(name, text);
      } else if (name.equals("stages")) {
        treatment.put(name, Arrays.asList(text.split("[\\s,+]+")));
      } else if (dot > 0) {
        String stage = name.substring(0, dot);
        if (StageId.ofKey(stage).isEmpty()) {
          throw new UsageException(
              where
                  + ": the column \""
                  + name
                  + "\" names no stage; facts have no dot in their name");
        }
        @SuppressWarnings("unchecked")
        Map<String, Object> settings =
            (Map<String, Object>)
                treatment.computeIfAbsent(stage, s -> new LinkedHashMap<String, Object>());
        settings.put(name.substring(dot + 1), value(text));
      } else {
        facts.put(name, text);
      }
    }
    if (!treatment.isEmpty()) {
      result.put("treatment", treatment);
    }
    result.put("facts", facts);
    return result;
  }

  private static Object value(String text) {
    if (text.equals("true") || text.equals("false")) {
      return Boolean.valueOf(text);
    }
    try {
      return Integer.valueOf(text);
    } catch (NumberFormatException notWhole) {
      try {
        return text.matches("[-+.0-9eE]+") ? (Object) Double.valueOf(text) : text;
      } catch (NumberFormatException noNumber) {
        return text;
      }
    }
  }

  private void lines() throws IOException {
    ObjectReader reader =
        JsonMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build()
            .readerFor(MAP)
            .with(JsonParser.Feature.STRICT_DUPLICATE_DETECTION);
    try (BufferedReader text = withoutMark(Files.newBufferedReader(file, StandardCharsets.UTF_8))) {
      int number = 0;
      for (String line = text.readLine(); line != null; line = text.readLine()) {
        number++;
        if (!line.isBlank()) {
          String where = file + ", line " + number;
          Map<String, Object> content;
          try {
            content = reader.readValue(line);
          } catch (JsonProcessingException e) {
            throw new UsageException(where + ": " + e.getOriginalMessage());
          }
          entries.add(entry(where, content));
        }
      }
    }
  }

  private Entry entry(String where, Map<String, Object> content) {
    YamlMap map = new YamlMap(where, "", content, Map.of());
    map.refuseUnknown(KEYS);
    Path path = map.has("path") ? path(map) : null;
    String disc = text(map, "disc");
    if (path == null && disc == null) {
      throw new UsageException(where + ": neither a path nor a disc is named");
    }
    TimeRange leadIn =
        map.has("leadIn") ? map.within("leadIn", () -> TimeRange.parse(map.text("leadIn"))) : null;
    BatchLayer layer =
        new BatchLayer(
            map.has("treatment") ? map.part("treatment") : null,
            leadIn,
            text(map, "grooveOf"),
            folder);
    if (path == null && leadIn != null) {
      throw new UsageException(where + ": leadIn is of one side; name its path");
    }
    return new Entry(
        where,
        path,
        disc,
        text(map, "side"),
        text(map, "series"),
        map.has("facts") ? map.part("facts").content() : Map.of(),
        layer);
  }

  private Path path(YamlMap map) {
    try {
      return folder.resolve(map.text("path")).normalize();
    } catch (InvalidPathException e) {
      throw map.refused("path", "path \"" + map.get("path") + "\" cannot be the name of a file");
    }
  }

  private static String text(YamlMap map, String key) {
    return map.has(key) ? map.text(key) : null;
  }
}
