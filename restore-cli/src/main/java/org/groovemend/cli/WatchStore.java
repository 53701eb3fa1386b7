package org.groovemend.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.audio.FilePath;
import org.groovemend.delivery.OutputSet;
import org.groovemend.job.inspect.Inspect;
import org.groovemend.job.inspect.InspectionPage;
import org.groovemend.watch.SeenFile;

/**
 * Results of a watch in a folder: for each file its inspection as JSON, and, if wanted, its page.
 * The JSON holds size and time of the file and what it was judged by, so that another start knows
 * what is done.
 *
 * @param folder that is watched; what lies below it in folders lies so in {@code out} too
 * @param out where results go
 * @param pages whether pages are written
 * @param replace whether files that no watch has made may be written over
 * @param asked how files are judged: limits, capture, version; results of others do not count
 */
record WatchStore(
    Path folder, Path out, boolean pages, boolean replace, Map<String, String> asked) {

  Path json(Path file) {
    return place(file, ".inspection.json");
  }

  Path page(Path file) {
    return place(file, ".inspection.html");
  }

  private Path place(Path file, String ending) {
    Path relative = folder.relativize(file);
    return out.resolve(relative).resolveSibling(FilePath.name(file) + ending);
  }

  /** What an earlier watch said of the file as it stands now; null if it did not. */
  WatchTold known(Path file, SeenFile seen) {
    try {
      JsonNode kept = Json.read(Files.readAllBytes(json(file)));
      // read back, so that numbers are of the same kind
      JsonNode wanted = Json.read(Json.bytes(Json.tree(mark(seen))));
      if (kept.path("watched").equals(wanted) && (!pages || Files.exists(page(file)))) {
        return WatchTold.of(kept.get("side"));
      }
    } catch (IOException | RuntimeException e) {
      // none, or not one of ours: it is done again
    }
    return null;
  }

  /** Writes what was found, whole or not at all. */
  void write(Path file, SeenFile seen, Inspect.Outcome found) throws IOException {
    ObjectNode kept = (ObjectNode) Json.tree(Map.of("inspect", 1));
    kept.set("side", InspectionView.json(found.side()));
    kept.set("watched", Json.tree(mark(seen)));
    Path json = json(file);
    String name = FilePath.name(json);
    boolean over = replace || ours(json);
    if (pages) {
      InspectionPage.write(
          found,
          file,
          page(file),
          over,
          "groovemend " + Version.number(),
          Map.of(name, Json.bytes(kept)));
      return;
    }
    try (OutputSet outputs =
        OutputSet.open(FilePath.folder(json), List.of(name), over, List.of(file))) {
      try (OutputStream bytes = outputs.create(name)) {
        bytes.write(Json.bytes(kept));
      }
      outputs.commit();
    }
  }

  private static boolean ours(Path json) throws IOException {
    try {
      return Json.read(Files.readAllBytes(json)).has("watched");
    } catch (NoSuchFileException e) {
      return false;
    } catch (com.fasterxml.jackson.core.JacksonException e) {
      return false;
    }
  }

  private Map<String, Object> mark(SeenFile seen) {
    Map<String, Object> mark = new LinkedHashMap<>();
    mark.put("bytes", seen.bytes());
    mark.put("modified", seen.modified().toString());
    mark.put("judgedBy", asked);
    return mark;
  }
}
