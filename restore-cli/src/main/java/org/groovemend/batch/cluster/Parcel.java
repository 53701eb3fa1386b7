package org.groovemend.batch.cluster;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.groovemend.bag.DigestAlgorithm;
import org.groovemend.bag.ListedFile;
import org.groovemend.batch.FoundSide;
import org.groovemend.batch.InBag;
import org.groovemend.batch.PlannedSide;
import org.groovemend.batch.SideOrder;
import org.groovemend.batch.SideTask;
import org.groovemend.job.restore.ReportWish;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;

/**
 * All that a worker must know to do one side, in a form that travels: texts and numbers only, so
 * that no engine's way to write objects can matter.
 *
 * @param file the transfer
 * @param place its place within the collection
 * @param bytes its length when it was planned
 * @param modifiedNanos when it was changed last then
 * @param treatment a treatment file
 * @param leadIn stated groove-only stretch, two times in seconds; or null
 * @param grooveOf another transfer whose bare groove is taken; or null
 * @param out the output folder
 * @param mark a file in it that shows that a worker sees the same folder
 * @param folder where the results go, below the output folder
 * @param name what they are called
 * @param replace whether results that are there may be replaced
 * @param adopt whether results that are there already may be taken
 * @param sha256 of the transfer that these were made of, if the catalogue knows; or null
 * @param bag what a bag lists of the transfer; null if it lies in none
 * @param page the page wished for
 * @param version goes into the ledger
 * @param now goes into the ledger
 */
record Parcel(
    String file,
    String place,
    long bytes,
    long modifiedNanos,
    String treatment,
    List<Double> leadIn,
    String grooveOf,
    String out,
    String mark,
    String folder,
    String name,
    boolean replace,
    boolean adopt,
    String sha256,
    Bag bag,
    ReportWish page,
    String version,
    String now) {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  /**
   * @param folder the bag; null if it does not list the transfer
   * @param path within it
   * @param checksums listed, by name of their kind
   */
  record Bag(String folder, String path, Map<String, String> checksums) {

    private static Bag of(InBag bag) {
      if (bag == null) {
        return null;
      }
      ListedFile listed = bag.listed();
      if (listed == null) {
        return new Bag(null, null, Map.of());
      }
      Map<String, String> checksums = new TreeMap<>();
      listed.checksums().forEach((kind, hex) -> checksums.put(kind.name(), hex));
      return new Bag(absolute(listed.bag()), listed.path(), checksums);
    }

    private InBag of(Path file) {
      if (folder == null) {
        return new InBag(file, null);
      }
      Map<DigestAlgorithm, String> kinds = new EnumMap<>(DigestAlgorithm.class);
      checksums.forEach((kind, hex) -> kinds.put(DigestAlgorithm.valueOf(kind), hex));
      return new InBag(file, new ListedFile(Path.of(folder), path, kinds));
    }
  }

  /** From a plan. */
  static Parcel of(
      PlannedSide side,
      SideTask task,
      String treatment,
      InBag bag,
      Path out,
      Path mark,
      boolean adopt) {
    SideOrder order = side.order();
    return new Parcel(
        absolute(order.found().file()),
        order.found().place(),
        order.found().bytes(),
        order.found().modifiedNanos(),
        treatment,
        order.leadIn() == null
            ? null
            : List.of(order.leadIn().fromSeconds(), order.leadIn().toSeconds()),
        order.grooveOf() == null ? null : absolute(order.grooveOf()),
        absolute(out),
        String.valueOf(mark.getFileName()),
        side.output().folder(),
        task.name(),
        task.replace(),
        adopt,
        side.sha256(),
        Bag.of(bag),
        task.page(),
        task.toolVersion(),
        task.now().toString());
  }

  private static String absolute(Path path) {
    return path.toAbsolutePath().normalize().toString();
  }

  /** What the worker is to do. */
  SideTask task(Treatment read) {
    FoundSide found = new FoundSide(Path.of(file), place, bytes, modifiedNanos);
    SideOrder order =
        new SideOrder(
            found,
            null,
            null,
            null,
            Map.of(),
            read,
            leadIn == null ? null : new TimeRange(leadIn.get(0), leadIn.get(1)),
            grooveOf == null ? null : Path.of(grooveOf));
    return new SideTask(
        order, Path.of(out).resolve(folder), name, replace, page, version, Instant.parse(now));
  }

  /** What is to be compared before; null if the transfer lies in no bag. */
  InBag inBag() {
    return bag == null ? null : bag.of(Path.of(file));
  }

  String text() {
    try {
      return MAPPER.writeValueAsString(this);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("texts and numbers are always JSON", e);
    }
  }

  static Parcel of(String text) {
    try {
      return MAPPER.readValue(text, Parcel.class);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("a parcel of another version of the program", e);
    }
  }
}
