package org.groovemend.report;

import java.util.Locale;
import org.groovemend.audio.AudioFormat;

/** Edits over time: how many begin in each stretch, and what share of it they change. */
final class EditsPicture {

  private static final int COUNT_LANE = 84;
  private static final int SHARE_LANE = 44;
  private static final int GAP = 14;
  private static final int TOP = 12;

  private EditsPicture() {}

  static byte[] draw(EditDensity density) {
    int perChannel = COUNT_LANE + SHARE_LANE + 2 * GAP;
    int top = TOP + 2 * Plot.LINE + 4;
    int height = top + density.channels() * perChannel - GAP + Plot.timeAxisHeight() + 6;
    Sheet sheet = new Sheet(Plot.WIDTH, height);
    TimeAxis axis = TimeAxis.of(density.frames(), density.sampleRateHz());
    int most = Math.max(1, density.most());
    double share = Math.max(1e-4, density.largestChangedShare());
    legend(sheet, density);
    int y = top;
    for (int c = 0; c < density.channels(); c++) {
      double[] counts = new double[density.columns()];
      double[] changed = new double[density.columns()];
      for (int i = 0; i < counts.length; i++) {
        counts[i] = density.counts()[c][i] / (double) most;
        changed[i] = density.changed()[c][i] / share;
      }
      lane(sheet, axis, counts, y, COUNT_LANE, Sheet.AFTER_DEEP);
      Plot.leftLabel(sheet, String.valueOf(most), y + 7);
      Plot.leftLabel(sheet, "0", y + COUNT_LANE - 8);
      String name = AudioFormat.channelName(c, density.channels());
      sheet.text(name, 6, y + COUNT_LANE / 2 - 7, Plot.SCALE, Sheet.INK);
      y += COUNT_LANE + GAP;
      lane(sheet, axis, changed, y, SHARE_LANE, Sheet.BEFORE_DEEP);
      Plot.leftLabel(sheet, percent(share), y + 7);
      Plot.leftLabel(sheet, "0", y + SHARE_LANE - 8);
      y += SHARE_LANE + GAP;
    }
    Plot.timeAxis(sheet, axis, y - GAP);
    return sheet.png();
  }

  private static String percent(double share) {
    double value = share * 100;
    String format = value >= 10 ? "%.0f%%" : value >= 1 ? "%.1f%%" : "%.2f%%";
    return String.format(Locale.ROOT, format, value);
  }

  private static void legend(Sheet sheet, EditDensity density) {
    String stretch = "";
    if (density.columns() > 0) {
      double seconds = density.frames() / (double) density.sampleRateHz() / density.columns();
      stretch =
          seconds >= 0.1
              ? String.format(Locale.ROOT, " in each %.2f s", seconds)
              : String.format(Locale.ROOT, " in each %.2g ms", seconds * 1000);
    }
    sheet.fill(Plot.LEFT, TOP, 14, 14, Sheet.AFTER_DEEP);
    sheet.text(
        "EDITS THAT BEGIN" + stretch + " (blue)", Plot.LEFT + 22, TOP, Plot.SCALE, Sheet.INK);
    sheet.fill(Plot.LEFT, TOP + Plot.LINE, 14, 14, Sheet.BEFORE_DEEP);
    sheet.text(
        "SHARE OF SAMPLES CHANGED (brown)", Plot.LEFT + 22, TOP + Plot.LINE, Plot.SCALE, Sheet.INK);
  }

  private static void lane(
      Sheet sheet, TimeAxis axis, double[] heights, int y, int lane, int colour) {
    for (TimeAxis.Tick tick : axis.ticks()) {
      sheet.vertical(Plot.x(tick.fraction()), y, y + lane - 1, Sheet.RULE);
    }
    for (int i = 0; i < heights.length; i++) {
      if (heights[i] > 0) {
        int bar = (int) Math.max(1, Math.round(heights[i] * (lane - 2)));
        int left = Plot.x(i, heights.length);
        int width = Plot.x(i + 1, heights.length) - left;
        sheet.fill(left, y + lane - bar, width > 3 ? width - 1 : width, bar, colour);
      }
    }
    sheet.frame(Plot.LEFT, y, Plot.COLUMNS, lane, Sheet.MUTED);
  }
}
