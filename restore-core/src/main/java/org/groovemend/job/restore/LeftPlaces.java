package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.LeftAlone;
import org.groovemend.stage.StageId;

/** Gathers the places of a side that are too long to be filled, for ledger, page and terminal. */
final class LeftPlaces {

  /** Name of the finding in the ledger. */
  static final String FINDING = "leftAlone";

  /** More are counted, not listed: a side with so many is not worth its repair. */
  private static final int MOST_LISTED = 10_000;

  private static final int MOST_TOLD = 10;

  private static final Comparator<Place> BY_PLACE =
      Comparator.comparingLong(Place::start).thenComparingInt(Place::channel);

  private final List<Place> places = new ArrayList<>();
  private final List<LeftAlone> newest = new ArrayList<>();
  private long count;
  private long frames;

  /**
   * One of them.
   *
   * @param stage the stage that left it
   * @param channel 0 based
   * @param start first frame
   * @param end one past the last
   */
  record Place(String stage, int channel, long start, long end) {}

  /**
   * What the ledger says of them.
   *
   * @param places how many
   * @param frames their length together, of single channels
   * @param list the places by start, then channel, at most 10,000
   */
  record Finding(long places, long frames, List<Place> list) {}

  void add(StageId stage, LeftAlone place) {
    // the crackle pass meets again what the click pass left
    for (LeftAlone other : newest) {
      if (other.channel() == place.channel()
          && other.start() < place.end()
          && other.end() > place.start()) {
        return;
      }
    }
    newest.add(place);
    if (newest.size() > 1000) {
      newest.remove(0);
    }
    count++;
    frames += place.end() - place.start();
    if (places.size() < MOST_LISTED) {
      places.add(new Place(stage.key(), place.channel(), place.start(), place.end()));
    }
  }

  boolean isEmpty() {
    return count == 0;
  }

  Finding finding() {
    return new Finding(count, frames, places.stream().sorted(BY_PLACE).toList());
  }

  /**
   * For people.
   *
   * @param longestMilliseconds longest gap that is filled
   */
  String sentence(AudioFormat format, double longestMilliseconds) {
    StringBuilder text = new StringBuilder();
    text.append(count)
        .append(count == 1 ? " place" : " places")
        .append(" longer than ")
        .append(
            longestMilliseconds == Math.rint(longestMilliseconds)
                ? Long.toString((long) longestMilliseconds)
                : Double.toString(longestMilliseconds))
        .append(count == 1 ? " ms was" : " ms were")
        .append(" left alone, as whatever filled them would be invented: ");
    List<Place> sorted = finding().list();
    for (int i = 0; i < Math.min(MOST_TOLD, sorted.size()); i++) {
      Place p = sorted.get(i);
      text.append(i == 0 ? "" : ", ")
          .append(String.format(Locale.ROOT, "%.3f s", format.seconds(p.start())));
      if (format.channels() == 2) {
        text.append(p.channel() == 0 ? " left" : " right");
      }
    }
    if (count > MOST_TOLD) {
      text.append(" and ").append(count - MOST_TOLD).append(" more");
    }
    return text.append("; listen there.").toString();
  }
}
