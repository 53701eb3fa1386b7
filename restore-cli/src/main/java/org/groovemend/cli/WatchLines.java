package org.groovemend.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.groovemend.watch.SeenFile;

/** What a watch says: a line of text or of JSON for each thing that happens, at once. */
final class WatchLines {
  private final PrintWriter out;
  private final boolean json;
  private final Path folder;
  private final Clock clock;

  WatchLines(PrintWriter out, boolean json, Path folder, Clock clock) {
    this.out = out;
    this.json = json;
    this.folder = folder;
    this.clock = clock;
  }

  /**
   * A verdict.
   *
   * @param known whether it is one of an earlier watch
   * @param doubt what is odd about the file's length, or null
   * @param store where the results are, or null
   */
  void judged(
      Path file, SeenFile seen, WatchTold told, boolean known, String doubt, WatchStore store) {
    Map<String, Object> all = map("judged", file);
    all.put("verdict", told.verdict().key());
    all.put("reason", told.reason());
    all.put("measure", told.measure());
    all.put("redo", told.redo());
    all.put("look", told.look());
    all.put("known", known);
    all.put("doubt", doubt);
    all.put("bytes", seen.bytes());
    all.put("modified", seen.modified().toString());
    all.put("result", store == null ? null : store.json(file).toString());
    all.put("page", store == null || !store.pages() ? null : store.page(file).toString());
    String odd = doubt == null ? "" : "; judged as it is though " + doubt;
    say(all, told.verdict().key(), name(file) + ": " + told.reason() + odd + words(known));
  }

  private static String words(boolean known) {
    return known ? " (judged before)" : "";
  }

  /** A file that could not be judged, or whose results could not be written. */
  void failed(Path file, Failures.Failure failure) {
    Map<String, Object> all = map("failed", file);
    all.put("error", failure.asMap());
    String said = failure.sentence();
    say(all, "failed", said.contains(name(file)) ? said : name(file) + ": " + said);
  }

  /** Something about a file or the folder. */
  void note(String event, Path file, String why) {
    Map<String, Object> all = map(event, file);
    all.put("why", why);
    say(all, event, name(file) + ": " + why);
  }

  /** The end. */
  void end(int judged, int fine, int look, int redo, int failed) {
    Map<String, Object> all = map("end", folder);
    all.put("judged", judged);
    all.put("fine", fine);
    all.put("look", look);
    all.put("redo", redo);
    all.put("failed", failed);
    String words =
        String.format(
            Locale.ROOT,
            "%d judged: %d fine, %d look, %d redo; %d not judged",
            judged,
            fine,
            look,
            redo,
            failed);
    say(all, "end", words);
  }

  private Map<String, Object> map(String event, Path file) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("watch", 1);
    all.put("event", event);
    all.put("time", clock.instant().truncatedTo(ChronoUnit.MILLIS).toString());
    all.put("file", name(file));
    return all;
  }

  /** As it lies below the watched folder. */
  private String name(Path file) {
    return file.equals(folder) ? file.toString() : folder.relativize(file).toString();
  }

  private void say(Map<String, Object> all, String word, String text) {
    if (json) {
      Json.line(out, (ObjectNode) Json.tree(all));
      return;
    }
    LocalTime time = LocalTime.now(clock).truncatedTo(ChronoUnit.SECONDS);
    // a name may hold what would start a new line
    String line = text.replaceAll("\\p{Cntrl}", "?");
    out.println(String.format(Locale.ROOT, "%tT  %-7s %s", time, word, line));
    out.flush();
  }
}
