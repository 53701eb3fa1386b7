package org.groovemend.batch;

import java.util.List;

/**
 * What was found of a collection.
 *
 * @param sides in the order of their places
 * @param troubles folders and files that could not be looked at, one sentence each
 * @param passedOver files that are no audio by their name, hidden, or results of this program
 */
public record Collected(List<FoundSide> sides, List<String> troubles, long passedOver) {

  public Collected {
    sides = List.copyOf(sides);
    troubles = List.copyOf(troubles);
  }
}
