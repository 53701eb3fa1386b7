package org.groovemend.report;

import java.util.List;
import java.util.Map;

/**
 * The repaired places of a side as the picture of the disc shows them.
 *
 * @param counts places by kind, all of them
 * @param single those to be drawn one by one, in order of time
 * @param density if there are too many clicks and crackle for that: how many lie in each cell of a
 *     square grid, row by row from the top, over the square around the outer radius; else null. Not
 *     copied
 */
record DiscMarks(Map<DiscMark.Kind, Long> counts, List<DiscMark> single, int[][] density) {

  DiscMarks {
    counts = Map.copyOf(counts);
    single = List.copyOf(single);
  }

  long count(DiscMark.Kind kind) {
    return counts.getOrDefault(kind, 0L);
  }
}
