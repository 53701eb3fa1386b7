package org.groovemend.report;

import java.util.List;

/**
 * Points and lines on two linear axes; for a logarithmic axis give logarithms and label the ticks.
 *
 * @param xLabel quantity and unit below
 * @param yLabel quantity and unit above the plotted area
 * @param x across
 * @param y upward
 * @param series at most four; each has a mark of its own, so that it can be told apart in grey
 * @param guide true to draw the line on which y equals x
 */
public record Chart(
    String xLabel, String yLabel, Axis x, Axis y, List<Series> series, boolean guide) {

  /** Most series that marks can tell apart. */
  static final int MOST_SERIES = 4;

  public Chart {
    series = List.copyOf(series);
    if (series.size() > MOST_SERIES) {
      throw new IllegalArgumentException(series.size() + " series, at most " + MOST_SERIES);
    }
  }

  /**
   * One axis.
   *
   * @param low value at the left or bottom
   * @param high at the right or top, above {@code low}
   * @param ticks within
   */
  public record Axis(double low, double high, List<Tick> ticks) {
    public Axis {
      ticks = List.copyOf(ticks);
      if (!(high > low)) {
        throw new IllegalArgumentException("axis from " + low + " to " + high);
      }
    }

    /** 0 to 100 per cent for shares of 0 to 1. */
    public static Axis share() {
      return new Axis(
          0,
          1,
          List.of(
              new Tick(0, "0%"),
              new Tick(0.25, "25%"),
              new Tick(0.5, "50%"),
              new Tick(0.75, "75%"),
              new Tick(1, "100%")));
    }
  }

  /**
   * A labelled place of an axis.
   *
   * @param at value
   * @param label printable ASCII
   */
  public record Tick(double at, String label) {}

  /**
   * Points that belong together.
   *
   * @param name for the legend
   * @param joined true to join them by lines in their order
   * @param marked true to mark each point; without, only the first of every tenth part is
   * @param points outside the axes are drawn at their edge
   */
  public record Series(String name, boolean joined, boolean marked, List<Point> points) {
    public Series {
      points = List.copyOf(points);
    }

    public Series(String name, boolean joined, List<Point> points) {
      this(name, joined, true, points);
    }

    /** Whether a point has its mark. */
    boolean marks(int point) {
      return marked || point % Math.max(1, points.size() / 10) == 0;
    }
  }

  /**
   * One value with its interval.
   *
   * @param low of the interval upward; equal to {@code high} for none
   * @param high of it
   */
  public record Point(double x, double y, double low, double high) {
    public static Point exact(double x, double y) {
      return new Point(x, y, y, y);
    }
  }
}
