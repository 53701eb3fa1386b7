package org.groovemend.report;

import java.util.Locale;
import org.groovemend.audio.AudioFormat;

/** Waveform before over waveform after, same scale, one lane a channel. */
final class WaveformPicture {

  private static final int LANE = 116;
  private static final int GAP = 14;
  private static final int TOP = 12;

  private WaveformPicture() {}

  static byte[] draw(Envelope before, Envelope after) {
    if (before.frames() != after.frames() || before.channels() != after.channels()) {
      throw new IllegalArgumentException(
          "before has "
              + before.frames()
              + " frames in "
              + before.channels()
              + " channels, after "
              + after.frames()
              + " in "
              + after.channels());
    }
    int block = Plot.LINE + 2 + before.channels() * (LANE + GAP);
    int height = TOP + 2 * block + Plot.timeAxisHeight() - GAP + 6;
    Sheet sheet = new Sheet(Plot.WIDTH, height);
    TimeAxis axis = TimeAxis.of(before.frames(), before.sampleRateHz());
    double range = range(Math.max(before.peak(), after.peak()));
    block(sheet, before, axis, range, TOP, true);
    int last = block(sheet, after, axis, range, TOP + block, false);
    Plot.timeAxis(sheet, axis, last);
    return sheet.png();
  }

  /** Round ends of the scale: these times a power of ten. */
  private static final double[] ROUND = {1, 1.5, 2, 3, 4, 5, 6, 8};

  /** Smallest round number that holds the peak; 1 for silence. */
  static double range(double peak) {
    if (!(peak > 0) || Double.isInfinite(peak)) {
      return 1;
    }
    for (int exponent = -6; exponent < 300; exponent++) {
      for (double round : ROUND) {
        // powers of ten from their decimal spelling: 0.6 is then the nearest double to 0.6
        double range = Double.parseDouble(round + "e" + exponent);
        // an envelope holds floats: a peak of exactly the scale's end may read 6e-8 above it
        if (range * (1 + 1e-7) >= peak) {
          return range;
        }
      }
    }
    return 1e300;
  }

  /**
   * @return y below the last lane
   */
  private static int block(
      Sheet sheet, Envelope envelope, TimeAxis axis, double range, int top, boolean before) {
    int light = before ? Sheet.BEFORE : Sheet.AFTER;
    int deep = before ? Sheet.BEFORE_DEEP : Sheet.AFTER_DEEP;
    sheet.fill(Plot.LEFT, top, 14, 14, light);
    String title = before ? "BEFORE (orange)" : "AFTER (blue)";
    String how = "   pale: extremes   dark: RMS";
    sheet.text(title, Plot.LEFT + 22, top, Plot.SCALE, Sheet.INK);
    int shift = Plot.LEFT + 22 + Glyphs.width(title, Plot.SCALE);
    sheet.text(how, shift, top, Plot.SCALE, Sheet.MUTED);
    sheet.textRight("linear", Plot.LEFT - 10, top, Plot.SCALE, Sheet.INK);
    sheet.text("dBFS", Plot.RIGHT + 10, top, Plot.SCALE, Sheet.INK);
    int y = top + Plot.LINE + 2;
    for (int c = 0; c < envelope.channels(); c++) {
      lane(sheet, envelope, axis, range, c, y, light, deep);
      y += LANE + GAP;
    }
    return y - GAP;
  }

  private static void lane(
      Sheet sheet,
      Envelope e,
      TimeAxis axis,
      double range,
      int channel,
      int y,
      int light,
      int deep) {
    int middle = y + LANE / 2;
    for (TimeAxis.Tick tick : axis.ticks()) {
      sheet.vertical(Plot.x(tick.fraction()), y, y + LANE - 1, Sheet.RULE);
    }
    for (int i = 0; i < e.columns(); i++) {
      double low = e.min()[channel][i];
      double high = e.max()[channel][i];
      double previousLow = i == 0 ? low : e.min()[channel][i - 1];
      double previousHigh = i == 0 ? high : e.max()[channel][i - 1];
      // join to the neighbour, so that few samples still make a line
      int y0 = at(middle, Math.max(high, previousLow), range);
      int y1 = at(middle, Math.min(low, previousHigh), range);
      double rms = e.rms()[channel][i];
      for (int x = Plot.x(i, e.columns()); x < Plot.x(i + 1, e.columns()); x++) {
        boolean step = x > Plot.x(i, e.columns());
        sheet.vertical(
            x, step ? at(middle, high, range) : y0, step ? at(middle, low, range) : y1, light);
        int r0 = at(middle, Math.min(rms, high), range);
        int r1 = at(middle, Math.max(-rms, low), range);
        if (low < high && r0 < r1) {
          sheet.vertical(x, r0, r1, deep);
        }
      }
    }
    sheet.frame(Plot.LEFT, y, Plot.COLUMNS, LANE, Sheet.MUTED);
    if (e.columns() == 0) {
      Plot.nothing(sheet, y, LANE);
    }
    String name = AudioFormat.channelName(channel, e.channels());
    sheet.text(name, 6, middle - 7, Plot.SCALE, Sheet.INK);
    labels(sheet, y, middle, range);
  }

  private static void labels(Sheet sheet, int y, int middle, double range) {
    String linear = linear(range);
    Plot.leftLabel(sheet, "+" + linear, y + 7);
    Plot.leftLabel(sheet, "0", middle);
    Plot.leftLabel(sheet, "-" + linear, y + LANE - 8);
    double db = 20 * StrictMath.log10(range);
    String full = String.format(Locale.ROOT, "%.1f", db + 0.0);
    String half = String.format(Locale.ROOT, "%.1f", db - 6.0206);
    int quarter = (LANE / 2 - 2) / 2;
    Plot.rightLabel(sheet, full, y + 7);
    Plot.rightLabel(sheet, half, middle - quarter);
    Plot.rightLabel(sheet, half, middle + quarter);
    Plot.rightLabel(sheet, full, y + LANE - 8);
  }

  private static String linear(double range) {
    boolean plain = range >= 0.001 && range < 10_000;
    return plain
        ? java.math.BigDecimal.valueOf(range).stripTrailingZeros().toPlainString()
        : String.format(Locale.ROOT, "%.1e", range).replace("e-0", "e-").replace("e+0", "e");
  }

  private static int at(int middle, double value, double range) {
    double clipped = Math.max(-1, Math.min(1, value / range));
    return middle - (int) Math.round(clipped * (LANE / 2 - 2));
  }
}
