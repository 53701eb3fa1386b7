package org.groovemend.click;

import java.util.Arrays;
import java.util.List;

/**
 * Which places follow one another at the even distance of a tone's periods: pulses of a voice, a
 * reed, lips or a bow, not damage, however sharp each is. Disc damage keeps no such time: it comes
 * at random or once a turn.
 *
 * <p>Five places in a row and more, 1 to 8 ms apart, all distances alike within 3 per cent; one on
 * each side may be missing. Distances above 8 ms are left to damage: mains interference ticks every
 * 10 ms.
 */
final class PulseTrain {
  private static final double SHORTEST_SECONDS = 0.001;
  private static final double LONGEST_SECONDS = 0.008;
  private static final double EVEN = 0.03;
  private static final int IN_A_ROW = 5;

  private final int shortest;
  private final int longest;

  PulseTrain(int rate) {
    shortest = (int) (SHORTEST_SECONDS * rate);
    longest = (int) (LONGEST_SECONDS * rate);
  }

  /**
   * Marks those of a channel that belong to a train.
   *
   * @param candidates by start
   * @param least log odds a place must have to count
   */
  boolean[] members(List<Candidate> candidates, double least) {
    boolean[] member = new boolean[candidates.size()];
    long[] places = new long[candidates.size()];
    int count = 0;
    for (Candidate k : candidates) {
      if (k.logOdds() > least) {
        places[count++] = middle(k);
      }
    }
    places = Arrays.copyOf(places, count);
    Arrays.sort(places);
    for (int i = 0; i < member.length; i++) {
      member[i] = candidates.get(i).logOdds() > least && inRow(places, middle(candidates.get(i)));
    }
    return member;
  }

  private static long middle(Candidate k) {
    return k.start() + k.length() / 2;
  }

  private boolean inRow(long[] places, long at) {
    int near = lowest(places, at - longest);
    for (int j = near; j < places.length && places[j] <= at + longest; j++) {
      long distance = Math.abs(places[j] - at);
      if (distance >= shortest
          && 1 + steps(places, at, distance) + steps(places, at, -distance) >= IN_A_ROW) {
        return true;
      }
    }
    return false;
  }

  /** Places in a row from {@code at} on, each near a distance behind the one before. */
  private static int steps(long[] places, long at, long distance) {
    double reach = EVEN * Math.abs(distance) + 1;
    long from = at;
    boolean missed = false;
    for (int k = 0; k < IN_A_ROW - 1; ) {
      int i = lowest(places, (long) Math.ceil(from + distance - reach));
      if (i < places.length && places[i] <= from + distance + reach) {
        from = places[i];
        k++;
      } else if (missed) {
        return k;
      } else {
        // one of them may have been masked
        missed = true;
        from += distance;
      }
    }
    return IN_A_ROW - 1;
  }

  /** Index of the first place not before {@code frame}. */
  private static int lowest(long[] places, long frame) {
    int i = Arrays.binarySearch(places, frame);
    i = i < 0 ? -1 - i : i;
    while (i > 0 && places[i - 1] == frame) {
      i--;
    }
    return i;
  }
}
