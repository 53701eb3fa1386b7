package org.groovemend.batch;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Which sides of a catalogue are wanted, and in which order.
 *
 * @param sql the question, with places for values
 * @param values for these places
 */
public record CatalogueQuery(String sql, List<Object> values) {

  private static final Pattern CONDITION =
      Pattern.compile("\\s*(\\w+)\\s*(>=|<=|!=|=|>|<|~)\\s*(.*?)\\s*");

  private static final Pattern NUMBER = Pattern.compile("[-+]?\\d+(\\.\\d+)?([eE][-+]?\\d+)?");

  /** Columns of a side, in the order of the table. */
  public static List<String> columns() {
    List<String> names = new ArrayList<>();
    Matcher table =
        Pattern.compile("CREATE TABLE side \\((.*?)\\);", Pattern.DOTALL)
            .matcher(String.join("\n", CatalogueSchema.STEPS));
    if (!table.find()) {
      throw new IllegalStateException("there is a table of sides");
    }
    for (String line : table.group(1).strip().split("\n")) {
      names.add(line.strip().split("\\s")[0]);
    }
    Matcher later =
        Pattern.compile("ALTER TABLE side ADD COLUMN (\\w+)")
            .matcher(String.join("\n", CatalogueSchema.STEPS));
    while (later.find()) {
      names.add(later.group(1));
    }
    return names;
  }

  /** Some columns of all sides, in the order of places. */
  public static CatalogueQuery only(List<String> columns) {
    columns.forEach(CatalogueQuery::column);
    return new CatalogueQuery(
        "SELECT " + String.join(", ", columns) + " FROM side ORDER BY place", List.of());
  }

  /** What is known of the results that a ledger stands for. */
  public static CatalogueQuery results(String folder, String ledger) {
    return new CatalogueQuery(
        "SELECT original, sha256, ledger_seal FROM side WHERE folder = ? AND ledger = ?",
        List.of(folder, ledger));
  }

  /** Every run so far. */
  public static CatalogueQuery runs() {
    return new CatalogueQuery("SELECT * FROM run ORDER BY id", List.of());
  }

  /**
   * @param conditions such as {@code state=failed}, {@code edits_per_minute>100}, {@code
   *     place~shelf/78s/*}; all must hold
   * @param sort column to sort by, with "-" before it from high to low; null for places
   * @param limit at most so many rows; 0 for all
   * @throws IllegalArgumentException if a condition or a column cannot be; the message is a
   *     sentence
   */
  public static CatalogueQuery of(List<String> conditions, String sort, int limit) {
    StringBuilder sql = new StringBuilder("SELECT * FROM side");
    List<Object> values = new ArrayList<>();
    for (String condition : conditions) {
      Matcher parts = CONDITION.matcher(condition);
      if (!parts.matches()) {
        throw new IllegalArgumentException(
            "\"" + condition + "\" is no condition such as state=failed or edits_per_minute>100");
      }
      String operator = parts.group(2).equals("~") ? "GLOB" : parts.group(2);
      String value = parts.group(3);
      sql.append(values.isEmpty() && sql.indexOf("WHERE") < 0 ? " WHERE " : " AND ")
          .append(column(parts.group(1)));
      if (value.isEmpty()) {
        sql.append(operator.equals("!=") ? " IS NOT NULL" : " IS NULL");
      } else {
        sql.append(' ').append(operator).append(" ?");
        values.add(NUMBER.matcher(value).matches() ? (Object) Double.valueOf(value) : value);
      }
    }
    boolean down = sort != null && sort.startsWith("-");
    String by = sort == null ? "place" : column(down ? sort.substring(1) : sort);
    sql.append(" ORDER BY ").append(by).append(down ? " DESC" : " ASC").append(", place");
    if (limit > 0) {
      sql.append(" LIMIT ").append(limit);
    }
    return new CatalogueQuery(sql.toString(), List.copyOf(values));
  }

  private static String column(String name) {
    List<String> known = columns();
    if (!known.contains(name)) {
      throw new IllegalArgumentException(
          "there is no column \"" + name + "\"; columns are " + String.join(", ", known));
    }
    return name;
  }
}
