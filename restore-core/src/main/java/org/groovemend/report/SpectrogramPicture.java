package org.groovemend.report;

import java.util.List;
import java.util.Locale;

/** Spectrogram before over spectrogram after with one colour scale. */
final class SpectrogramPicture {

  static final int ROWS = 288;

  /** Ends of the colour scale, dB re a full-scale sine. */
  static final double QUIETEST_DB = -110;

  static final double LOUDEST_DB = -10;

  private static final int GAP = 18;
  private static final int TOP = 12;
  private static final int[] FREQUENCIES = {
    50, 100, 200, 500, 1_000, 2_000, 5_000, 10_000, 20_000, 50_000, 100_000
  };

  private SpectrogramPicture() {}

  static byte[] draw(Spectrogram before, Spectrogram after) {
    if (before.frames() != after.frames() || before.sampleRateHz() != after.sampleRateHz()) {
      throw new IllegalArgumentException(
          "before has "
              + before.frames()
              + " frames at "
              + before.sampleRateHz()
              + " Hz, after "
              + after.frames()
              + " at "
              + after.sampleRateHz());
    }
    return draw(List.of("BEFORE", "AFTER"), List.of(before, after));
  }

  /** One alone. */
  static byte[] draw(Spectrogram one) {
    return draw(List.of(""), List.of(one));
  }

  private static byte[] draw(List<String> titles, List<Spectrogram> panels) {
    int block = Plot.LINE + 2 + ROWS + GAP;
    int height = TOP + panels.size() * block - GAP + Plot.timeAxisHeight() + 6;
    Sheet sheet = new Sheet(Plot.WIDTH, height);
    int first = TOP + Plot.LINE + 2;
    int last = first + (panels.size() - 1) * block;
    for (int i = 0; i < panels.size(); i++) {
      sheet.text(titles.get(i), Plot.LEFT, TOP + i * block, Plot.SCALE, Sheet.INK);
      panel(sheet, panels.get(i), first + i * block);
    }
    sheet.textRight("Hz", Plot.LEFT - 10, TOP, Plot.SCALE, Sheet.INK);
    colourBar(sheet, first, last + ROWS - first);
    Spectrogram one = panels.get(0);
    Plot.timeAxis(sheet, TimeAxis.of(one.frames(), one.sampleRateHz()), last + ROWS);
    return sheet.png();
  }

  static byte[] tile(Spectrogram spectrogram, int firstColumn, int columns) {
    int rows = spectrogram.rows();
    Sheet sheet = new Sheet(columns, rows);
    for (int x = 0; x < columns; x++) {
      for (int y = 0; y < rows; y++) {
        sheet.dot(x, y, colour(spectrogram.db()[firstColumn + x][rows - 1 - y]));
      }
    }
    return sheet.png();
  }

  private static void panel(Sheet sheet, Spectrogram s, int top) {
    for (int i = 0; i < s.columns(); i++) {
      for (int x = Plot.x(i, s.columns()); x < Plot.x(i + 1, s.columns()); x++) {
        for (int y = 0; y < ROWS; y++) {
          int row = (ROWS - 1 - y) * s.rows() / ROWS;
          sheet.dot(x, top + y, colour(s.db()[i][row]));
        }
      }
    }
    sheet.frame(Plot.LEFT, top, Plot.COLUMNS, ROWS, Sheet.MUTED);
    if (s.columns() == 0) {
      Plot.nothing(sheet, top, ROWS);
    }
    double nyquist = s.sampleRateHz() / 2.0;
    for (int hz : FREQUENCIES) {
      if (hz < nyquist * 0.98) {
        double share =
            StrictMath.log(hz / Spectrogram.LOWEST_HZ)
                / StrictMath.log(nyquist / Spectrogram.LOWEST_HZ);
        String label = hz >= 1000 ? hz / 1000 + "k" : String.valueOf(hz);
        Plot.leftLabel(sheet, label, top + ROWS - 1 - (int) Math.round(share * (ROWS - 1)));
      }
    }
  }

  static int colour(double db) {
    double share = (db - QUIETEST_DB) / (LOUDEST_DB - QUIETEST_DB);
    int step = (int) Math.floor(Math.max(0, Math.min(1, share)) * (Sheet.LEVEL_COUNT - 1) + 0.5);
    return Sheet.LEVELS + step;
  }

  private static void colourBar(Sheet sheet, int top, int height) {
    int left = Plot.RIGHT + 24;
    int length = Math.min(height - 4 * Plot.LINE, 320);
    // the title stands above the bar
    int y = top + Math.max((height - length) / 2, 4 * Plot.LINE);
    for (int i = 0; i < length; i++) {
      double db = LOUDEST_DB + (QUIETEST_DB - LOUDEST_DB) * i / (length - 1);
      sheet.horizontal(left, left + 17, y + i, colour(db));
    }
    sheet.frame(left, y, 18, length, Sheet.MUTED);
    for (int db = (int) LOUDEST_DB; db >= QUIETEST_DB; db -= 20) {
      int at = y + (int) Math.round((LOUDEST_DB - db) / (LOUDEST_DB - QUIETEST_DB) * (length - 1));
      sheet.horizontal(left + 19, left + 23, at, Sheet.MUTED);
      String label = String.format(Locale.ROOT, "%d", db);
      sheet.text(label, left + 28, at - 7, Plot.SCALE, Sheet.MUTED);
    }
    String[] title = {"dB re", "full", "scale", "sine"};
    for (int i = 0; i < title.length; i++) {
      int line = y - (title.length - i) * Plot.LINE - 4;
      sheet.text(title[i], left, line, Plot.SCALE, Sheet.INK);
    }
  }
}
