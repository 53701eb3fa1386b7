package org.groovemend.signal.predict;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Rows of a reference table: comment lines and the heading left out, quoted fields kept whole. */
public final class ReferenceTable {
  private ReferenceTable() {}

  public static List<List<String>> rows(String path) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                ReferenceTable.class.getResourceAsStream(path), StandardCharsets.UTF_8))) {
      boolean heading = true;
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (line.startsWith("#") || line.isBlank()) {
          continue;
        }
        if (!heading) {
          rows.add(fields(line));
        }
        heading = false;
      }
    }
    return rows;
  }

  private static List<String> fields(String line) {
    List<String> out = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    for (char c : line.toCharArray()) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        out.add(field.toString());
        field.setLength(0);
      } else {
        field.append(c);
      }
    }
    out.add(field.toString());
    return out;
  }
}
