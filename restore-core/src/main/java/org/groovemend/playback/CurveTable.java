package org.groovemend.playback;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The historical curves that can be chosen by name, from the resource {@code curves.csv}. */
public final class CurveTable {
  private static final int COLUMNS = 13;

  private static final List<NamedCurve> ALL = read();

  private CurveTable() {}

  /** All of them, in the order of the table. */
  public static List<NamedCurve> all() {
    return ALL;
  }

  public static Optional<NamedCurve> ofKey(String key) {
    return ALL.stream().filter(named -> named.key().equals(key)).findFirst();
  }

  public static List<String> keys() {
    return ALL.stream().map(NamedCurve::key).toList();
  }

  private static List<NamedCurve> read() {
    try (InputStream in = CurveTable.class.getResourceAsStream("curves.csv");
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      List<NamedCurve> all = new ArrayList<>();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (!line.startsWith("#") && !line.startsWith("key;")) {
          all.add(of(line.split(";", COLUMNS)));
        }
      }
      return List.copyOf(all);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static NamedCurve of(String[] row) {
    double treble = number(row[8]);
    PlaybackCurve curve =
        new PlaybackCurve(
            number(row[3]),
            microseconds(row[4], row[5]),
            microseconds(row[6], row[7]),
            treble > 0 ? treble : PlaybackCurve.trebleOf(number(row[9])));
    return new NamedCurve(
        row[0],
        row[1],
        row[2],
        curve,
        NamedCurve.Status.valueOf(row[10].toUpperCase(Locale.ROOT)),
        row[11],
        row[12]);
  }

  private static double microseconds(String printed, String hertz) {
    return printed.isEmpty() ? PlaybackCurve.microseconds(number(hertz)) : number(printed);
  }

  private static double number(String text) {
    return text.isEmpty() ? 0 : Double.parseDouble(text);
  }
}
