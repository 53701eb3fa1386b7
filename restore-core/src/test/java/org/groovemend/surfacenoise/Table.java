package org.groovemend.surfacenoise;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Rows of a reference table, as text fields, without header lines and the line of names. */
final class Table {

  private Table() {}

  static List<String[]> read(String name) throws IOException {
    List<String[]> rows = new ArrayList<>();
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                Table.class.getResourceAsStream("/fixtures/reference/noise/" + name),
                StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (!line.startsWith("#")) {
          rows.add(line.split(","));
        }
      }
    }
    rows.remove(0);
    return rows;
  }
}
