package org.groovemend.transfer;

import java.util.List;

/**
 * Interruptions of a side.
 *
 * @param count all that were found
 * @param places the first {@value InterruptionSearch#MOST_KEPT} of them, in order
 */
public record Interruptions(long count, List<Interruption> places) {
  public Interruptions {
    places = List.copyOf(places);
  }

  /** How many of the places kept are of a kind. */
  public long of(Interruption.Kind kind) {
    return places.stream().filter(p -> p.kind() == kind).count();
  }
}
