package org.groovemend.overview;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.batch.Catalogue;
import org.groovemend.batch.CatalogueQuery;
import org.groovemend.rotation.DiscSpeed;
import org.groovemend.rotation.RotationFinding;

/**
 * All sides of a catalogue with the sums over them; some hundred bytes a side.
 *
 * @param sides in the order of places
 * @param counts sides by state
 * @param hours of sound done
 * @param repairs of the sides done
 * @param workSeconds that these took
 * @param lastRun the last run's row, empty if there was none
 */
record CollectionFigures(
    List<SideFigures> sides,
    Map<String, Integer> counts,
    double hours,
    long repairs,
    double workSeconds,
    Map<String, Object> lastRun) {

  private static final List<String> COLUMNS =
      List.of(
          "place",
          "disc",
          "side_name",
          "series",
          "state",
          "error_kind",
          "error",
          "folder",
          "name",
          "ledger",
          "seconds",
          "frames",
          "rate_hz",
          "edits",
          "edits_per_minute",
          "clipped_samples",
          "clipped_runs",
          "removed_dbfs",
          "rms_dbfs",
          "channel_difference_db",
          "noise_before_dbfs",
          "noise_after_dbfs",
          "turntable_rpm",
          "rotation_chance",
          "edits_left_share",
          "repairs_on_onsets",
          "repairs_on_onsets_z",
          "remarks");

  static CollectionFigures of(Catalogue catalogue) throws IOException {
    List<SideFigures> sides = new ArrayList<>();
    Map<String, Integer> counts = new HashMap<>();
    Map<String, String> once = new HashMap<>();
    double[] sums = new double[3];
    catalogue.forEach(
        CatalogueQuery.only(COLUMNS),
        row -> {
          SideFigures side = side(row, once);
          sides.add(side);
          counts.merge(side.state(), 1, Integer::sum);
          if (side.done()) {
            sums[0] += known(side.value(Measure.LENGTH)) / 60;
            sums[1] += known(Measure.number(row, "edits"));
            sums[2] += known(Measure.number(row, "seconds"));
          }
        });
    Map<String, Object> last = new HashMap<>();
    catalogue.forEach(
        CatalogueQuery.runs(),
        row -> {
          last.clear();
          last.putAll(row);
        });
    return new CollectionFigures(sides, counts, sums[0], (long) sums[1], sums[2], last);
  }

  int count(String state) {
    return counts.getOrDefault(state, 0);
  }

  private static double known(double value) {
    return Double.isNaN(value) ? 0 : value;
  }

  private static SideFigures side(Map<String, Object> row, Map<String, String> once) {
    String state = once(row, "state", once);
    double[] values = new double[Measure.values().length];
    Arrays.fill(values, Double.NaN);
    // measures of a side that waits to be done again are those of the time before
    boolean done = state.equals("done");
    if (done) {
      for (Measure measure : Measure.values()) {
        values[measure.ordinal()] = measure.of(row);
      }
    }
    String series = once(row, "series", once);
    return new SideFigures(
        text(row, "place"),
        once(row, "disc", once),
        once(row, "side_name", once),
        series == null ? "" : series,
        state,
        once(row, "error_kind", once),
        text(row, "error"),
        once(row, "folder", once),
        text(row, "name"),
        text(row, "ledger"),
        values,
        Measure.number(row, "repairs_on_onsets_z"),
        done ? notes(row) : List.of());
  }

  private static List<String> notes(Map<String, Object> row) {
    List<String> notes = new ArrayList<>();
    double limited = Measure.number(row, "clipped_samples");
    if (limited > 0) {
      notes.add(String.format(Locale.ROOT, "%,.0f samples of the copy had to be limited", limited));
    }
    double clipped = Measure.number(row, "clipped_runs");
    if (clipped > 0) {
      notes.add(String.format(Locale.ROOT, "the transfer is clipped at %,.0f places", clipped));
    }
    double rpm = Measure.number(row, "turntable_rpm");
    if (Measure.number(row, "rotation_chance") <= RotationFinding.MOST_CHANCE
        && DiscSpeed.of(rpm).isEmpty()) {
      notes.add(
          String.format(
              Locale.ROOT,
              "repairs repeat %.1f times a minute, which is no speed of discs: the beat of the"
                  + " music?",
              rpm));
    }
    String remarks = text(row, "remarks");
    if (remarks != null && remarks.length() > 2) {
      notes.add("remarks in its report");
    }
    return notes.isEmpty() ? List.of() : notes;
  }

  private static String text(Map<String, Object> row, String column) {
    return row.get(column) == null ? null : String.valueOf(row.get(column));
  }

  /** Texts that many sides share are kept once. */
  private static String once(Map<String, Object> row, String column, Map<String, String> once) {
    String text = text(row, column);
    return text == null ? null : once.computeIfAbsent(text, t -> t);
  }
}
