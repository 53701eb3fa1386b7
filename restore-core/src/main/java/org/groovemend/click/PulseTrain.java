package org.groovemend.click;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Which places follow one another at the even distance of a tone's periods: pulses of a voice, a
 * reed, lips or a bow, not damage, however sharp each is. Disc damage keeps no such time: it comes
 * at random or once a turn.
 *
 * <p>Five places in a row and more, 1 to 8 ms apart, all distances alike within 3 per cent and a
 * frame; one on each side may be missing. Distances above 8 ms are left to damage: mains
 * interference ticks every 10 ms.
 */
final class PulseTrain {
  private static final double SHORTEST_SECONDS = 0.001;
  private static final double LONGEST_SECONDS = 0.008;
  private static final double EVEN = 0.03;
  private static final int IN_A_ROW = 5;

  /** Length of a row that is no proof, but tells of trains if many places stand in such rows. */
  private static final int LIKELY = 4;

  /** Log odds that a place must have to be taken for a pulse. */
  private static final double LEAST = -5;

  /** Sound is pulsed where more than this share of the places stands in trains. */
  private static final double SHARE = 0.3;

  private static final double AROUND_SECONDS = 0.25;

  private final int shortest;
  private final int longest;
  private final int around;

  PulseTrain(int rate) {
    shortest = (int) (SHORTEST_SECONDS * rate);
    longest = (int) (LONGEST_SECONDS * rate);
    around = (int) (AROUND_SECONDS * rate);
  }

  /**
   * Takes the pulses of trains away from the places of one channel, and judges the places about
   * them as of pulsed sound: not every pulse of a growl or a portamento is even.
   *
   * @param candidates by start
   */
  List<Candidate> judged(List<Candidate> candidates) {
    int[] row = rows(candidates);
    int n = row.length;
    int from = 0;
    int to = 0;
    int heard = 0;
    int inTrains = 0;
    List<Candidate> judged = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      long at = candidates.get(i).start();
      for (; to < n && candidates.get(to).start() <= at + around; to++) {
        heard += candidates.get(to).logOdds() > LEAST ? 1 : 0;
        inTrains += row[to] >= LIKELY ? 1 : 0;
      }
      for (; candidates.get(from).start() < at - around; from++) {
        heard -= candidates.get(from).logOdds() > LEAST ? 1 : 0;
        inTrains -= row[from] >= LIKELY ? 1 : 0;
      }
      if (row[i] < IN_A_ROW) {
        boolean pulsed = inTrains >= LIKELY && inTrains > SHARE * heard;
        judged.add(pulsed ? candidates.get(i).amongPulses() : candidates.get(i));
      }
    }
    return judged;
  }

  /** Places in the longest row that each stands in, {@link #IN_A_ROW} or more counting as that. */
  private int[] rows(List<Candidate> candidates) {
    long[] places =
        candidates.stream()
            .filter(k -> k.logOdds() > LEAST)
            .mapToLong(PulseTrain::middle)
            .sorted()
            .toArray();
    int[] row = new int[candidates.size()];
    for (int i = 0; i < row.length; i++) {
      Candidate k = candidates.get(i);
      row[i] = k.logOdds() > LEAST ? row(places, middle(k)) : 0;
    }
    return row;
  }

  private static long middle(Candidate k) {
    return k.start() + k.length() / 2;
  }

  private int row(long[] places, long at) {
    int most = 1;
    int near = lowest(places, at - longest);
    for (int j = near; j < places.length && places[j] <= at + longest && most < IN_A_ROW; j++) {
      long distance = Math.abs(places[j] - at);
      if (distance >= shortest) {
        most = Math.max(most, 1 + steps(places, at, distance) + steps(places, at, -distance));
      }
    }
    return most;
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
