package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.groovemend.job.restore.ReportWish;

/**
 * What is to be done of a collection, and what is done already. Making one reads the catalogue and
 * looks whether files are there; no sound is read, nothing is written.
 *
 * @param sides to be done, the longest first
 * @param skipped sides that are done
 * @param factor by which sides took longer than was guessed so far; 1 if none was done
 */
public record BatchPlan(List<PlannedSide> sides, List<SideOrder> skipped, double factor) {

  private static final String RESTORED = ".restored.wav";

  public BatchPlan {
    sides = List.copyOf(sides);
    skipped = List.copyOf(skipped);
  }

  /**
   * What a person wants beyond the orders.
   *
   * @param out the output folder
   * @param page the page wished for
   * @param version of the program
   * @param anyVersion true if what another version has done counts as done
   * @param again true if everything is to be done again
   * @param shard number of the part that is to be done, from 1
   * @param shards parts there are
   */
  public record Wish(
      Path out,
      ReportWish page,
      String version,
      boolean anyVersion,
      boolean again,
      int shard,
      int shards) {

    /** Everything that is left. */
    public static Wish all(Path out, ReportWish page, String version) {
      return new Wish(out, page, version, false, false, 1, 1);
    }
  }

  /**
   * Compares.
   *
   * @param orders all sides, in the order of places
   * @param rows of the catalogue by place; empty if there is none yet
   */
  public static BatchPlan of(List<SideOrder> orders, Map<String, SideRow> rows, Wish wish) {
    // a large collection of which nothing is new needs neither
    OutputNames names = null;
    Map<Path, FoundSide> byFile = new HashMap<>();
    if (orders.stream().anyMatch(order -> order.grooveOf() != null)) {
      orders.forEach(order -> byFile.put(order.found().file(), order.found()));
    }
    TreatmentDigests digests = new TreatmentDigests();
    SideCost cost = new SideCost(rows.values(), wish.page());
    List<PlannedSide> todo = new ArrayList<>();
    List<SideOrder> skipped = new ArrayList<>();
    boolean[] there = resultsThere(orders, rows, wish);
    int number = -1;
    for (SideOrder order : orders) {
      number++;
      String place = order.found().place();
      if (OutputNames.shard(place, wish.shards()) != wish.shard()) {
        continue;
      }
      SideRow row = rows.get(place);
      if (row == null && names == null) {
        names = new OutputNames();
        for (SideRow known : rows.values()) {
          names.keep(known.output());
        }
      }
      OutputNames.Output output = row == null ? names.give(place) : row.output();
      String key = SideTask.key(digests.of(order.treatment()), order, groove(order, byFile));
      PlannedSide.Why why = why(order, row, key, wish, there[number]);
      if (why == null) {
        skipped.add(order);
        continue;
      }
      todo.add(
          new PlannedSide(
              order,
              output,
              key,
              why,
              row != null && row.attempts() > 0,
              row != null && valid(row, key, wish, there[number]) ? row.sha256() : null,
              cost.guessedSeconds(order),
              cost.bytes(order)));
    }
    todo.sort(Comparator.comparingDouble(PlannedSide::expectedSeconds).reversed());
    return new BatchPlan(todo, skipped, cost.factor());
  }

  /** The other side whose groove is taken, with what tells whether it was changed. */
  private static FoundSide groove(SideOrder order, Map<Path, FoundSide> byFile) {
    if (order.grooveOf() == null) {
      return null;
    }
    FoundSide known = byFile.get(order.grooveOf());
    if (known != null) {
      return known;
    }
    String name = String.valueOf(order.grooveOf().getFileName());
    try {
      return new FoundSide(
          order.grooveOf(),
          name,
          Files.size(order.grooveOf()),
          Files.getLastModifiedTime(order.grooveOf()).to(TimeUnit.NANOSECONDS));
    } catch (IOException e) {
      // told when the side is done
      return new FoundSide(order.grooveOf(), name, -1, 0);
    }
  }

  /** Why a side is to be done, null if it is done. */
  private static PlannedSide.Why why(
      SideOrder order, SideRow row, String key, Wish wish, boolean there) {
    if (row == null || row.attempts() == 0 && row.state() == SideState.WAITING) {
      return PlannedSide.Why.NEW;
    }
    switch (row.state()) {
      case FAILED:
        return PlannedSide.Why.FAILED;
      case RUNNING, WAITING:
        return PlannedSide.Why.UNFINISHED;
      default:
        break;
    }
    if (wish.again()) {
      return PlannedSide.Why.ASKED;
    }
    if (!key.equals(row.treatment())) {
      return PlannedSide.Why.TREATMENT;
    }
    if (!sameVersion(row, wish)) {
      return PlannedSide.Why.VERSION;
    }
    if (!there) {
      return PlannedSide.Why.MISSING;
    }
    boolean touched =
        order.found().bytes() != row.bytes()
            || order.found().modifiedNanos() != row.modifiedNanos();
    return touched ? PlannedSide.Why.ORIGINAL : null;
  }

  /** Whether results are there that hold if the transfer still has the digest in the row. */
  private static boolean valid(SideRow row, String key, Wish wish, boolean there) {
    return (row.state() == SideState.DONE || row.state() == SideState.WAITING)
        && !wish.again()
        && row.sha256() != null
        && key.equals(row.treatment())
        && sameVersion(row, wish)
        && there;
  }

  private static boolean sameVersion(SideRow row, Wish wish) {
    return wish.anyVersion() || wish.version().equals(row.version());
  }

  /**
   * Whether the results of each side are there. Most of a plan is waiting for the system to tell
   * the lengths of files, which it does for several at once.
   */
  private static boolean[] resultsThere(
      List<SideOrder> orders, Map<String, SideRow> rows, Wish wish) {
    boolean[] there = new boolean[orders.size()];
    IntStream.range(0, there.length)
        .parallel()
        .forEach(
            i -> {
              String place = orders.get(i).found().place();
              SideRow row = rows.get(place);
              there[i] =
                  row != null
                      && OutputNames.shard(place, wish.shards()) == wish.shard()
                      && resultsThere(row, wish);
            });
    return there;
  }

  private static boolean resultsThere(SideRow row, Wish wish) {
    Path folder = wish.out().resolve(row.output().folder());
    return row.ledger() != null
        && hasLength(folder.resolve(row.ledger()), row.ledgerBytes())
        && hasLength(folder.resolve(row.output().name() + RESTORED), row.restoredBytes());
  }

  private static boolean hasLength(Path file, long bytes) {
    try {
      return Files.size(file) == bytes;
    } catch (IOException e) {
      return false;
    }
  }

  /** How many sides are to be done for which reason. */
  public Map<PlannedSide.Why, Integer> reasons() {
    Map<PlannedSide.Why, Integer> counts = new EnumMap<>(PlannedSide.Why.class);
    sides.forEach(side -> counts.merge(side.why(), 1, Integer::sum));
    return counts;
  }

  /**
   * Time it will take, from earlier runs or, without, from a first guess.
   *
   * @param threads at work
   */
  public double seconds(int threads) {
    return factor * sides.stream().mapToDouble(PlannedSide::expectedSeconds).sum() / threads;
  }

  /** Bytes of all results that are to be written, rather too many than too few. */
  public long bytes() {
    return sides.stream().mapToLong(PlannedSide::expectedBytes).sum();
  }
}
