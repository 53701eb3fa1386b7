package org.groovemend.job.bands;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.bands.BandEntry;
import org.groovemend.bands.BandList;
import org.groovemend.bands.BandListException;
import org.groovemend.bands.BandListText;
import org.groovemend.bands.BandPiece;
import org.groovemend.bands.BandPlan;
import org.groovemend.bands.Clock;
import org.groovemend.job.side.RequestRefusedException;

/**
 * Lists of bands in files: JSON by the name's end {@code .json}, comma-separated values by {@code
 * .csv}, plain lines else.
 *
 * <p>JSON: {@code {"bands": [{"start": 12.5, "duration": 187, "title": "..."}, ...]}}; times are
 * seconds or text such as "3:07.5", each may be missing; a text alone is a title.
 */
public final class BandListFile {
  private static final int VERSION = 1;
  private static final long LARGEST = 4 << 20;
  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private BandListFile() {}

  /**
   * Reads a list.
   *
   * @throws RequestRefusedException if it cannot be read or followed; the message names the file
   */
  public static BandList read(Path file) throws IOException {
    String text;
    try {
      if (Files.size(file) > LARGEST) {
        throw new RequestRefusedException(file + " is too large for a list of bands");
      }
      // bytes that are no UTF-8 are refused, not replaced
      text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
              .toString();
    } catch (NoSuchFileException e) {
      throw new RequestRefusedException("there is no list " + file + "; check the name");
    } catch (CharacterCodingException e) {
      throw new RequestRefusedException(file + " is not text in UTF-8; save it so");
    }
    try {
      String name = file.toString().toLowerCase(Locale.ROOT);
      if (name.endsWith(".json")) {
        return json(text);
      }
      return name.endsWith(".csv") ? BandListText.csv(text) : BandListText.plain(text);
    } catch (BandListException e) {
      throw new RequestRefusedException(file + ": " + e.getMessage());
    }
  }

  private static BandList json(String text) {
    JsonNode root;
    try {
      root = MAPPER.readTree(text);
    } catch (JsonProcessingException e) {
      throw new BandListException("it is no JSON: " + e.getOriginalMessage().split("\n")[0]);
    }
    JsonNode bands = root.path("bands");
    if (!bands.isArray()) {
      throw new BandListException("it has no array \"bands\"");
    }
    List<BandEntry> entries = new ArrayList<>();
    for (JsonNode one : bands) {
      if (one.isTextual()) {
        entries.add(new BandEntry(Double.NaN, Double.NaN, one.asText()));
      } else if (one.path("kind").asText("band").equals("band")) {
        entries.add(
            new BandEntry(
                seconds(one.path("start")),
                seconds(one.path("duration")),
                one.path("title").asText("")));
      }
    }
    return new BandList(entries);
  }

  private static double seconds(JsonNode node) {
    if (node.isMissingNode() || node.isNull()) {
      return Double.NaN;
    }
    if (!node.isNumber() && !node.isTextual()) {
      throw new BandListException(node + " is no time; write seconds or such as \"3:07.25\"");
    }
    return node.isNumber() ? node.asDouble() : Clock.seconds(node.asText());
  }

  /** The text of a list for a file of this name; it can be read again. */
  public static String text(BandPlan plan, Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (name.endsWith(".json")) {
      Map<String, Object> all = new LinkedHashMap<>();
      all.put("bandList", VERSION);
      all.put("bands", asList(plan));
      return json(all);
    }
    return name.endsWith(".csv") ? BandListText.csv(plan) : BandListText.plain(plan);
  }

  static String json(Map<String, Object> all) {
    try {
      return MAPPER.writeValueAsString(all) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a list that is no JSON", e);
    }
  }

  /** The pieces of a plan for machines. */
  public static List<Map<String, Object>> asList(BandPlan plan) {
    List<Map<String, Object>> all = new ArrayList<>();
    for (BandPiece piece : plan.pieces()) {
      Map<String, Object> one = new LinkedHashMap<>();
      one.put("kind", piece.kind().word());
      one.put("number", piece.number());
      one.put("title", piece.title());
      one.put("start", plan.seconds(piece.firstFrame()));
      one.put("end", plan.seconds(piece.endFrame()));
      one.put("firstFrame", piece.firstFrame());
      one.put("frames", piece.frames());
      one.put("confidence", piece.confidence());
      one.put("reason", piece.reason());
      all.add(one);
    }
    return all;
  }
}
