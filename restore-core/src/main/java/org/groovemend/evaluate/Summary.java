package org.groovemend.evaluate;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/** Trials of one sound and scenario together, and the table of them. */
public final class Summary {
  private Summary() {}

  /**
   * A table for people and pages (Markdown): a row for each sound and scenario, means over seeds.
   */
  public static String table(List<Trial> trials) {
    StringBuilder text = new StringBuilder();
    text.append(
        "| sound | damage | SDR on damage, dB | SNR, dB | harm, dB | log-spectral distance, dB | recall | precision"
            + " | false a minute: found / expected | in repairs |\n");
    text.append("|---|---|---|---|---|---|---|---|---|---|\n");
    for (List<Trial> row : rows(trials)) {
      Trial t = row.get(0);
      text.append(
          String.format(
              Locale.ROOT,
              "| %s | %s | %s -> %s | %s -> %s | %s | %s -> %s | %s | %s | %s / %s | %s |%n",
              t.sound().replace("|", "/"),
              t.scenario().key(),
              number("%.1f", mean(row, r -> r.score().sdrBeforeDb())),
              number("%.1f", mean(row, r -> r.score().sdrAfterDb())),
              number("%.1f", mean(row, r -> r.score().snrBeforeDb())),
              number("%.1f", mean(row, r -> r.score().snrAfterDb())),
              number("%.1f", mean(row, r -> r.score().harmDb())),
              number("%.2f", mean(row, r -> r.score().distanceBeforeDb())),
              number("%.2f", mean(row, r -> r.score().distanceAfterDb())),
              number("%.3f", recall(row)),
              number("%.3f", precision(row)),
              number("%.1f", falsePerMinute(row)),
              number("%.1f", mean(row, Trial::expectedFalsePerMinute)),
              number("%.2f %%", 100 * mean(row, r -> r.score().changedShare()))));
    }
    return text.toString().replace(System.lineSeparator(), "\n");
  }

  private static String number(String format, double value) {
    return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, format, value);
  }

  /** Trials that differ by their seed only. */
  static List<List<Trial>> rows(List<Trial> trials) {
    List<List<Trial>> rows = new ArrayList<>();
    for (Trial t : trials) {
      List<Trial> last = rows.isEmpty() ? null : rows.get(rows.size() - 1);
      if (last != null
          && last.get(0).sound().equals(t.sound())
          && last.get(0).scenario() == t.scenario()
          && last.get(last.size() - 1).seed() < t.seed()) {
        last.add(t);
      } else {
        rows.add(new ArrayList<>(List.of(t)));
      }
    }
    return rows;
  }

  private static double mean(List<Trial> row, ToDoubleFunction<Trial> figure) {
    return row.stream().mapToDouble(figure).average().orElse(Double.NaN);
  }

  private static double recall(List<Trial> row) {
    int all = row.stream().mapToInt(t -> t.score().prominent()).sum();
    int found = row.stream().mapToInt(t -> t.score().found()).sum();
    return all == 0 ? Double.NaN : found / (double) all;
  }

  private static double precision(List<Trial> row) {
    int all = row.stream().mapToInt(t -> t.score().repairs()).sum();
    return all == 0 ? Double.NaN : 1 - falseRepairs(row) / (double) all;
  }

  static int falseRepairs(List<Trial> row) {
    return row.stream().mapToInt(t -> t.score().falseRepairs()).sum();
  }

  static double minutes(List<Trial> row) {
    return row.stream().mapToDouble(t -> t.score().minutes()).sum();
  }

  private static double falsePerMinute(List<Trial> row) {
    return falseRepairs(row) / minutes(row);
  }
}
