package org.groovemend.report;

/** Pictures for people who read few: one idea each, words instead of units. */
final class AccountPicture {

  private static final int WIDTH = 1000;
  private static final int LEFT = 12;
  private static final int COLUMNS = WIDTH - 2 * LEFT;
  private static final int LANE = 78;
  private static final int BARS = 42;
  private static final int GAP = 10;
  private static final int BAR = 22;

  private AccountPicture() {}

  /** The side over time: before, after, and where repairs are. */
  static byte[] side(Envelope before, Envelope after, EditDensity repairs) {
    boolean any = repairs.total() > 0;
    int block = Plot.LINE + LANE + GAP;
    int axis = 2 * block + (any ? Plot.LINE + BARS + GAP : 0);
    Sheet sheet = new Sheet(WIDTH, 8 + axis + 8 + Plot.LINE);
    double peak = Math.max(1e-9, Math.max(before.peak(), after.peak()));
    TimeAxis times = TimeAxis.of(before.frames(), before.sampleRateHz());
    int y = 8;
    title(sheet, y, "Before: the sound as it came from the record", Sheet.BEFORE_DEEP);
    outline(sheet, before, peak, y + Plot.LINE, Sheet.BEFORE, Sheet.BEFORE_DEEP);
    y += block;
    title(sheet, y, "After: the clean copy", Sheet.AFTER_DEEP);
    outline(sheet, after, peak, y + Plot.LINE, Sheet.AFTER, Sheet.AFTER_DEEP);
    y += block;
    if (any) {
      title(sheet, y, "Where repairs lie: the taller, the more", Sheet.INK);
      bars(sheet, repairs, y + Plot.LINE);
      y += Plot.LINE + BARS + GAP;
    }
    String unit = times.unit().equals("s") ? " s" : times.unit().equals("ms") ? " ms" : "";
    for (TimeAxis.Tick tick : times.ticks()) {
      int x = LEFT + (int) Math.min(COLUMNS - 1, tick.fraction() * COLUMNS);
      sheet.vertical(x, y - GAP, y - GAP + 6, Sheet.MUTED);
      String label = tick.label() + unit;
      int half = Glyphs.width(label, Plot.SCALE) / 2;
      int centre = Math.max(LEFT + half, Math.min(LEFT + COLUMNS - half, x));
      sheet.textCentred(label, centre, y, Plot.SCALE, Sheet.MUTED);
    }
    return sheet.png();
  }

  private static void title(Sheet sheet, int y, String text, int colour) {
    sheet.fill(LEFT, y, 14, 14, colour);
    sheet.text(text, LEFT + 22, y, Plot.SCALE, Sheet.INK);
  }

  private static void outline(Sheet sheet, Envelope e, double peak, int y, int pale, int deep) {
    int middle = y + LANE / 2;
    for (int x = 0; x < COLUMNS && e.columns() > 0; x++) {
      int column = (int) ((long) x * e.columns() / COLUMNS);
      double low = 0;
      double high = 0;
      double power = 0;
      for (int c = 0; c < e.channels(); c++) {
        low = Math.min(low, e.min()[c][column]);
        high = Math.max(high, e.max()[c][column]);
        power += e.rms()[c][column] * e.rms()[c][column] / e.channels();
      }
      int rms = (int) Math.round(Math.sqrt(power) / peak * (LANE / 2 - 2));
      sheet.vertical(LEFT + x, at(middle, high / peak), at(middle, low / peak), pale);
      sheet.vertical(LEFT + x, middle - rms, middle + rms, deep);
    }
    sheet.frame(LEFT, y, COLUMNS, LANE, Sheet.MUTED);
  }

  private static int at(int middle, double share) {
    return middle - (int) Math.round(share * (LANE / 2 - 2));
  }

  private static void bars(Sheet sheet, EditDensity repairs, int y) {
    int[] counts = new int[repairs.columns()];
    int most = 1;
    for (int i = 0; i < counts.length; i++) {
      for (int c = 0; c < repairs.channels(); c++) {
        counts[i] += repairs.counts()[c][i];
      }
      most = Math.max(most, counts[i]);
    }
    for (int i = 0; i < counts.length; i++) {
      int from = LEFT + (int) ((long) i * COLUMNS / counts.length);
      int to = LEFT + (int) ((long) (i + 1) * COLUMNS / counts.length);
      int height = (int) Math.ceil(counts[i] * (BARS - 2) / (double) most);
      sheet.fill(from, y + BARS - height, Math.max(1, to - from - 1), height, Sheet.INK);
    }
    sheet.frame(LEFT, y, COLUMNS, BARS, Sheet.MUTED);
  }

  /**
   * Two bars: how loud the noise sounds.
   *
   * @param share after over before, 0 or more
   */
  static byte[] noise(double share) {
    int text = 560;
    int longest = WIDTH - text - LEFT;
    Sheet sheet = new Sheet(WIDTH, 8 + 2 * (BAR + GAP));
    double whole = Math.max(1, share);
    String after = "Noise between the notes, after: about " + Math.round(100 * share);
    bar(sheet, 8, "Noise between the notes, before: 100", text, longest / whole, Sheet.BEFORE_DEEP);
    bar(sheet, 8 + BAR + GAP, after, text, longest * share / whole, Sheet.AFTER_DEEP);
    return sheet.png();
  }

  private static void bar(Sheet sheet, int y, String words, int left, double length, int colour) {
    sheet.text(words, LEFT, y + 4, Plot.SCALE, Sheet.INK);
    sheet.fill(left, y, Math.max(1, (int) Math.round(length)), BAR, colour);
  }
}
