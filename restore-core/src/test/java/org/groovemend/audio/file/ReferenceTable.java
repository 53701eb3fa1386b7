package org.groovemend.audio.file;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Rows of a table in fixtures/reference/audio without comments and heading; commas in the last
 * column only.
 */
final class ReferenceTable {

  private ReferenceTable() {}

  static List<String[]> rows(String name, int columns) throws IOException {
    try (InputStream in =
            ReferenceTable.class.getResourceAsStream("/fixtures/reference/audio/" + name);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return lines
          .lines()
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .map(line -> line.split(",", columns))
          .toList();
    }
  }
}
