package org.groovemend.report;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** The side as the disc lies, seen from above: every repaired place where a person finds it. */
final class DiscPicture {

  private static final int RADIUS = 500;
  private static final int CENTRE_X = Plot.WIDTH / 2;
  private static final int TOP = 12;
  private static final int CENTRE_Y = TOP + 2 * Plot.LINE + 24 + RADIUS;
  private static final int LEGEND = CENTRE_Y + RADIUS + 24;
  private static final int LEGEND_LINES = 7;
  private static final int HEIGHT = LEGEND + LEGEND_LINES * Plot.LINE + 8;

  private static final int RIGHT_COLUMN = 640;
  private static final double RING = 5;

  /** Turns nearer to one another than this, in pixels: a scratch is one line. */
  private static final double NEAR_TURNS = 5;

  private static final int MOST_TIMES = 6;

  private final Sheet sheet = new Sheet(Plot.WIDTH, HEIGHT);
  private final DiscMap map;
  private final DiscLayout layout;
  private final DiscMarks marks;
  private final double pixelsPerMm;

  private DiscPicture(DiscMap map, DiscMarks marks) {
    this.map = map;
    this.layout = map.layout();
    this.marks = marks;
    this.pixelsPerMm = RADIUS / layout.outerMm();
  }

  static byte[] draw(DiscMap map, DiscMarks marks) {
    return new DiscPicture(map, marks).drawn();
  }

  private byte[] drawn() {
    int most = Plot.WIDTH / (Glyphs.ADVANCE * Plot.SCALE) - 2;
    sheet.textCentred(Pictures.fitted(map.title(), most), CENTRE_X, TOP, Plot.SCALE, Sheet.INK);
    sheet.textCentred(
        "seen from above; the disc turns clockwise",
        CENTRE_X,
        TOP + Plot.LINE,
        Plot.SCALE,
        Sheet.MUTED);
    List<TimeAxis.Tick> times = times();
    for (TimeAxis.Tick time : times) {
      Shapes.ring(
          sheet,
          CENTRE_X,
          CENTRE_Y,
          pixels(frame(time)),
          time.fraction() == 0 ? 1.5 : 1,
          Sheet.RULE);
    }
    if (marks.density() != null) {
      density();
    }
    for (DiscMap.FrameRange bare : map.bare()) {
      Shapes.hatched(
          sheet, CENTRE_X, CENTRE_Y, pixels(bare.end()), pixels(bare.start()), Sheet.MUTED);
    }
    edges();
    Set<Long> inScratch = new HashSet<>();
    for (List<Long> scratch : map.scratches()) {
      inScratch.addAll(scratch);
    }
    Strengths clicks = Strengths.of(marks.single(), DiscMark.Kind.CLICK);
    for (DiscMark mark : marks.single()) {
      if (mark.kind() != DiscMark.Kind.THUMP && !inScratch.contains(mark.frame())) {
        dot(mark.kind(), clicks.third(mark), x(mark.frame()), y(mark.frame()));
      }
    }
    for (List<Long> scratch : map.scratches()) {
      scratch(scratch);
    }
    for (DiscMark mark : marks.single()) {
      if (mark.kind() == DiscMark.Kind.THUMP) {
        Shapes.wedge(sheet, x(mark.frame()), y(mark.frame()), 7, Sheet.INK);
      }
    }
    for (TimeAxis.Tick time : times) {
      int y = (int) Math.round(CENTRE_Y - pixels(frame(time)));
      Shapes.hemmed(sheet, time.label(), CENTRE_X + 6, y + 3, Plot.SCALE, Sheet.INK);
    }
    middle();
    legend();
    return sheet.png();
  }

  private long frame(TimeAxis.Tick tick) {
    return Math.round(tick.fraction() * layout.frames());
  }

  private double pixels(long frame) {
    return layout.radiusMm(frame) * pixelsPerMm;
  }

  private double x(long frame) {
    return CENTRE_X + layout.rightMm(frame) * pixelsPerMm;
  }

  private double y(long frame) {
    return CENTRE_Y - layout.upMm(frame) * pixelsPerMm;
  }

  private List<TimeAxis.Tick> times() {
    List<TimeAxis.Tick> all = TimeAxis.of(layout.frames(), layout.sampleRateHz()).ticks();
    int every = (all.size() + MOST_TIMES - 1) / MOST_TIMES;
    List<TimeAxis.Tick> some = new ArrayList<>();
    for (int i = 0; i < all.size(); i += every) {
      some.add(all.get(i));
    }
    return some;
  }

  private void edges() {
    Shapes.ring(sheet, CENTRE_X, CENTRE_Y, RADIUS, 2, Sheet.MUTED);
    Shapes.ring(sheet, CENTRE_X, CENTRE_Y, pixels(layout.frames()), 2, Sheet.MUTED);
    Shapes.ring(sheet, CENTRE_X, CENTRE_Y, 9, 3, Sheet.MUTED);
    // angle 0: where the stylus stands at the first frame
    sheet.vertical(CENTRE_X, CENTRE_Y - RADIUS - 18, CENTRE_Y - RADIUS, Sheet.INK);
    sheet.vertical(CENTRE_X + 1, CENTRE_Y - RADIUS - 18, CENTRE_Y - RADIUS, Sheet.INK);
  }

  private void dot(DiscMark.Kind kind, int third, double x, double y) {
    if (kind == DiscMark.Kind.CRACKLE) {
      sheet.fill((int) Math.round(x), (int) Math.round(y), 2, 2, Sheet.MUTED);
    } else {
      Shapes.disc(sheet, x, y, 1.5 + third, third == 0 ? Sheet.AFTER : Sheet.AFTER_DEEP);
    }
  }

  private void scratch(List<Long> frames) {
    boolean near = layout.pitchMm() * pixelsPerMm < NEAR_TURNS;
    for (int i = 1; near && i < frames.size(); i++) {
      long from = frames.get(i - 1);
      long to = frames.get(i);
      Shapes.line(sheet, x(from), y(from), x(to), y(to), 8, Sheet.PAPER);
    }
    for (int i = 1; i < frames.size(); i++) {
      long from = frames.get(i - 1);
      long to = frames.get(i);
      Shapes.line(
          sheet,
          x(from),
          y(from),
          x(to),
          y(to),
          near ? 4 : 2,
          near ? Sheet.BEFORE_DEEP : Sheet.BEFORE);
    }
    for (int i = 0; i < frames.size(); i++) {
      if (!near || i == 0 || i == frames.size() - 1) {
        member(x(frames.get(i)), y(frames.get(i)));
      }
    }
  }

  private void member(double x, double y) {
    Shapes.disc(sheet, x, y, RING, Sheet.PAPER);
    Shapes.ring(sheet, x, y, RING, 2, Sheet.BEFORE_DEEP);
  }

  private int mostDense() {
    int most = 1;
    for (int[] row : marks.density()) {
      for (int count : row) {
        most = Math.max(most, count);
      }
    }
    return most;
  }

  /** Logarithmic, so that a single place and the densest are both seen. */
  private static int shade(double count, int most) {
    double level = 0.1 + 0.9 * StrictMath.log(count) / Math.max(StrictMath.log(most), 1e-9);
    return Sheet.LEVELS + (int) Math.round(Math.min(1, level) * (Sheet.LEVEL_COUNT - 1));
  }

  private void density() {
    int cells = marks.density().length;
    int most = mostDense();
    for (int row = 0; row < cells; row++) {
      int top = edge(row, cells);
      for (int column = 0; column < cells; column++) {
        int count = marks.density()[row][column];
        if (count > 0) {
          int left = edge(column, cells);
          sheet.fill(
              CENTRE_X + left,
              CENTRE_Y + top,
              edge(column + 1, cells) - left,
              edge(row + 1, cells) - top,
              shade(count, most));
        }
      }
    }
  }

  private static int edge(int cell, int cells) {
    return 2 * RADIUS * cell / cells - RADIUS;
  }

  private void middle() {
    int y = CENTRE_Y - Plot.LINE * (map.speed().size() + 1);
    for (String line : map.speed()) {
      sheet.textCentred(line, CENTRE_X, y, Plot.SCALE, Sheet.INK);
      y += Plot.LINE;
    }
    arrow();
  }

  /** A third of a circle under the spindle, its head clockwise. */
  private void arrow() {
    double radius = 60;
    double x = 0;
    double y = 0;
    for (int degrees = -30; degrees >= -150; degrees -= 3) {
      double angle = Math.toRadians(degrees);
      double nextX = CENTRE_X + radius * StrictMath.cos(angle);
      double nextY = CENTRE_Y - radius * StrictMath.sin(angle);
      if (degrees < -30) {
        Shapes.line(sheet, x, y, nextX, nextY, 2, Sheet.MUTED);
      }
      x = nextX;
      y = nextY;
    }
    Shapes.line(sheet, x, y, x + 10, y + 5, 2, Sheet.MUTED);
    Shapes.line(sheet, x, y, x - 1, y + 11, 2, Sheet.MUTED);
  }

  private void legend() {
    int left = 40;
    int y = LEGEND;
    boolean dense = marks.density() != null;
    String both = dense ? ", shaded" : "";
    if (!dense) {
      for (int third = 0; third < 3; third++) {
        dot(DiscMark.Kind.CLICK, third, left + 8 + 14 * third, y + 7);
      }
    }
    sheet.text(
        counted(DiscMark.Kind.CLICK, "click", "clicks") + both,
        left + 60,
        y,
        Plot.SCALE,
        Sheet.INK);
    y += Plot.LINE;
    if (!dense) {
      dot(DiscMark.Kind.CRACKLE, 0, left + 8, y + 5);
      dot(DiscMark.Kind.CRACKLE, 0, left + 18, y + 8);
      dot(DiscMark.Kind.CRACKLE, 0, left + 30, y + 4);
    }
    sheet.text(
        counted(DiscMark.Kind.CRACKLE, "crackle", "crackle") + both,
        left + 60,
        y,
        Plot.SCALE,
        Sheet.INK);
    y += Plot.LINE;
    Shapes.wedge(sheet, left + 22, y + 7, 7, Sheet.INK);
    sheet.text(
        counted(DiscMark.Kind.THUMP, "thump", "thumps"), left + 60, y, Plot.SCALE, Sheet.INK);
    y += Plot.LINE;
    Shapes.line(sheet, left + 6, y + 7, left + 40, y + 7, 2, Sheet.BEFORE);
    member(left + 10, y + 7);
    member(left + 36, y + 7);
    int scratches = map.scratches().size();
    sheet.text(
        scratches + (scratches == 1 ? " scratch" : " scratches") + ": once a turn",
        left + 60,
        y,
        Plot.SCALE,
        Sheet.INK);

    y = LEGEND;
    if (dense) {
      shadeScale(y);
    } else {
      sheet.text("size of a click: third of strength", RIGHT_COLUMN, y, Plot.SCALE, Sheet.INK);
    }
    y += Plot.LINE;
    sheet.text(
        "rings: time (" + TimeAxis.of(layout.frames(), layout.sampleRateHz()).unit() + ")",
        RIGHT_COLUMN,
        y,
        Plot.SCALE,
        Sheet.INK);
    y += Plot.LINE;
    if (!map.bare().isEmpty()) {
      Shapes.hatched(sheet, RIGHT_COLUMN + 12, y + 7, 0, 10, Sheet.MUTED);
      sheet.text("bare groove", RIGHT_COLUMN + 36, y, Plot.SCALE, Sheet.INK);
    }
    y = LEGEND + 5 * Plot.LINE - 8;
    String assumed =
        String.format(
            Locale.ROOT,
            "Assumed: %s, filled from %.1f to %.1f mm radius at constant pitch.",
            map.disc(),
            layout.outerMm(),
            layout.innerMm());
    sheet.text(assumed, left, y, Plot.SCALE, Sheet.MUTED);
    sheet.text(
        "The mark at the top is the first frame of the file; how the label lies to it is not"
            + " known.",
        left,
        y + Plot.LINE,
        Plot.SCALE,
        Sheet.MUTED);
  }

  private void shadeScale(int y) {
    int most = mostDense();
    double cellMm = 2 * layout.outerMm() / marks.density().length;
    int wide = 160;
    for (int i = 0; i < wide; i++) {
      double count = StrictMath.exp(StrictMath.log(most) * i / wide);
      sheet.vertical(RIGHT_COLUMN + 24 + i, y, y + 14, shade(count, most));
    }
    sheet.text("1", RIGHT_COLUMN, y, Plot.SCALE, Sheet.INK);
    sheet.text(
        String.format(Locale.ROOT, "%d in %.1f x %.1f mm", most, cellMm, cellMm),
        RIGHT_COLUMN + 24 + wide + 12,
        y,
        Plot.SCALE,
        Sheet.INK);
  }

  private String counted(DiscMark.Kind kind, String one, String many) {
    long count = marks.count(kind);
    return Printed.count(count) + " " + (count == 1 ? one : many);
  }

  /** Bounds of the weaker, middle and stronger third of one kind. */
  private record Strengths(DiscMark.Kind kind, double low, double high) {

    static Strengths of(List<DiscMark> marks, DiscMark.Kind kind) {
      double[] strengths =
          marks.stream()
              .filter(mark -> mark.kind() == kind)
              .mapToDouble(DiscMark::strength)
              .sorted()
              .toArray();
      return strengths.length == 0
          ? new Strengths(kind, 0, 0)
          : new Strengths(
              kind, strengths[strengths.length / 3], strengths[2 * strengths.length / 3]);
    }

    int third(DiscMark mark) {
      return mark.strength() < low ? 0 : mark.strength() < high ? 1 : 2;
    }
  }
}
