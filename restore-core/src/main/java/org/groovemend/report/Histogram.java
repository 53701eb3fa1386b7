package org.groovemend.report;

import java.util.List;

/**
 * How often which value is met.
 *
 * @param title of the measure, with its unit
 * @param edges of the bars, rising, one more than bars
 * @param labels of the edges that are named: first, middle, last
 * @param counts of each bar
 * @param beyond for each bar, whether it lies beyond a limit
 * @param median where half lie below, on the scale of the edges
 * @param words what it shows, for someone who cannot see it, and the caption
 */
public record Histogram(
    String title,
    List<Double> edges,
    List<String> labels,
    List<Long> counts,
    List<Boolean> beyond,
    double median,
    String words) {
  public Histogram {
    edges = List.copyOf(edges);
    labels = List.copyOf(labels);
    counts = List.copyOf(counts);
    beyond = List.copyOf(beyond);
    if (edges.size() != counts.size() + 1 || beyond.size() != counts.size()) {
      throw new IllegalArgumentException(
          edges.size() + " edges, " + counts.size() + " counts, " + beyond.size() + " limits");
    }
  }
}
