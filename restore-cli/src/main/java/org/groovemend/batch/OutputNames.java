package org.groovemend.batch;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import java.util.zip.CRC32;
import org.groovemend.ledger.LedgerNames;
import org.groovemend.ledger.Sha256;

/**
 * Where the results of each side go: the same folders as in the collection, and the name of the
 * side. Two sides never get the same, not even on a disk that knows no difference between capital
 * and small letters; a side keeps what it got once.
 */
public final class OutputNames {

  /** Folder below the output folder that mirrors the collection. */
  public static final String SIDES = "sides";

  /** Longest name in bytes; most systems stop at 255, and endings come behind it. */
  static final int LONGEST = 180;

  /**
   * A place for results.
   *
   * @param folder below the output folder, parts joined by "/"
   * @param name what the results are called
   */
  public record Output(String folder, String name) {}

  private final Set<String> taken = new HashSet<>();

  /** Tells of a place that an earlier run gave to a side. */
  public void keep(Output output) {
    taken.add(key(output));
  }

  /** A place for a side that has none yet. Ask in the order of places, for the same answers. */
  public Output give(String place) {
    String folder = folder(place);
    String stem = shortened(stem(place), place);
    Output output = new Output(folder, stem);
    if (!taken.add(key(output))) {
      // two sides that differ in their ending only, or in capital letters
      output = new Output(folder, shortened(file(place), place));
      if (!taken.add(key(output))) {
        output = new Output(folder, marked(stem, place));
        taken.add(key(output));
      }
    }
    return output;
  }

  /**
   * The part of a collection that a side belongs to, from 1. Sides that want the same name are in
   * the same part, so that parts need not know of one another; the part of a side never changes.
   */
  static int shard(String place, int shards) {
    if (shards == 1) {
      return 1;
    }
    CRC32 sum = new CRC32();
    sum.update(key(new Output(folder(place), stem(place))).getBytes(StandardCharsets.UTF_8));
    return 1 + (int) (sum.getValue() % shards);
  }

  private static String folder(String place) {
    int slash = place.lastIndexOf('/');
    return slash < 0 ? SIDES : SIDES + "/" + place.substring(0, slash);
  }

  private static String stem(String place) {
    return LedgerNames.of(Path.of(file(place)), Integer.SIZE).name();
  }

  private static String file(String place) {
    return place.substring(place.lastIndexOf('/') + 1);
  }

  private static String key(Output output) {
    return (output.folder() + "/" + output.name()).toLowerCase(Locale.ROOT);
  }

  private static String shortened(String name, String place) {
    return bytes(name) <= LONGEST ? name : marked(name, place);
  }

  /** A name cut short and told from others by eight digits of the digest of its place. */
  private static String marked(String name, String place) {
    String mark = "~" + Sha256.of(place.getBytes(StandardCharsets.UTF_8)).substring(0, 8);
    int end = name.length();
    while (bytes(name.substring(0, end)) > LONGEST - mark.length()) {
      end = name.offsetByCodePoints(end, -1);
    }
    return name.substring(0, end) + mark;
  }

  private static int bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8).length;
  }
}
