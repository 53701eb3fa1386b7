package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.groovemend.batch.BagGuard;
import org.groovemend.batch.Collected;
import org.groovemend.batch.CollectionWalk;
import org.groovemend.batch.FoundSide;
import org.groovemend.batch.RootNames;
import org.groovemend.batch.SideOrder;
import org.groovemend.job.restore.Treatment;
import org.groovemend.job.side.TimeRange;

/** From what a person names to what is asked for of every side. */
final class BatchOrders {

  private final BatchRules rules;
  private final Treatment base;
  private final CollectionWalk walk;
  private final Map<FoundSide, BatchManifest.Entry> entries = new IdentityHashMap<>();
  private final Map<String, List<BatchLayer>> discs = new HashMap<>();
  private final Map<String, Map<String, Path>> sidesOfDiscs = new HashMap<>();
  private final Map<List<Object>, Treatment> treatments = new HashMap<>();

  /**
   * @param orders in the order of places
   * @param troubles one sentence each
   * @param passedOver files that are no sides
   * @param bags in which sides lie
   */
  record Found(List<SideOrder> orders, List<String> troubles, long passedOver, BagGuard bags) {}

  private BatchOrders(BatchRules rules, Treatment base, RootNames names, Path out) {
    this.rules = rules;
    this.base = base;
    this.walk = new CollectionWalk(names, out);
  }

  /**
   * @param sources folders, files, patterns and manifests
   * @param names of folders; those new are added
   */
  static Found of(List<Path> sources, BatchRules rules, Treatment base, RootNames names, Path out)
      throws IOException {
    return new BatchOrders(rules, base, names, out).find(sources);
  }

  private Found find(List<Path> sources) throws IOException {
    // what a manifest knows of a side is kept, whichever else finds the side too
    for (Path source : sources) {
      if (Files.isRegularFile(source) && BatchManifest.isOne(source)) {
        manifest(source);
      }
    }
    for (Path source : sources) {
      if (Files.isDirectory(source)) {
        walk.folder(source);
      } else if (!Files.exists(source)) {
        pattern(source);
      } else if (!BatchManifest.isOne(source)) {
        walk.file(source, parent(source));
      }
    }
    Collected collected = walk.finish();
    for (FoundSide side : collected.sides()) {
      BatchManifest.Entry entry = entries.get(side);
      if (entry != null && entry.disc() != null && entry.side() != null) {
        sidesOfDiscs
            .computeIfAbsent(entry.disc(), d -> new HashMap<>())
            .put(entry.side(), side.file());
      }
    }
    List<SideOrder> orders = new ArrayList<>();
    for (FoundSide side : collected.sides()) {
      orders.add(order(side));
    }
    return new Found(orders, collected.troubles(), collected.passedOver(), walk.bags());
  }

  private void manifest(Path file) throws IOException {
    Path folder = parent(file);
    for (BatchManifest.Entry entry : BatchManifest.read(file)) {
      if (entry.path() == null) {
        discs.computeIfAbsent(entry.disc(), d -> new ArrayList<>()).add(entry.layer());
        continue;
      }
      if (Files.isDirectory(entry.path())) {
        throw new UsageException(
            entry.where() + ": " + entry.path() + " is a folder; a line names one side");
      }
      FoundSide side = walk.file(entry.path(), folder);
      if (side == null) {
        throw new UsageException(entry.where() + ": " + entry.path() + " was named before");
      }
      entries.put(side, entry);
    }
  }

  private void pattern(Path source) throws IOException {
    Path whole = source.toAbsolutePath().normalize();
    Path base = whole.getRoot();
    for (Path part : whole) {
      if (part.toString().matches(".*[*?\\[{].*")) {
        if (Files.isDirectory(base)) {
          walk.matching(base, base.relativize(whole).toString());
          return;
        }
        break;
      }
      base = base.resolve(part);
    }
    walk.trouble(
        source
            + ": there is no such file or folder; check the path, or whether its disk is there.");
  }

  private static Path parent(Path file) {
    return Objects.requireNonNull(
        file.toAbsolutePath().normalize().getParent(), "a file lies somewhere");
  }

  private SideOrder order(FoundSide side) {
    BatchManifest.Entry entry = entries.get(side);
    BatchRules.Known known =
        entry == null
            ? new BatchRules.Known(side, null, null, null, Map.of())
            : new BatchRules.Known(side, entry.disc(), entry.side(), entry.series(), entry.facts());
    List<BatchLayer> layers = new ArrayList<>(rules.layers(known));
    if (known.disc() != null) {
      layers.addAll(discs.getOrDefault(known.disc(), List.of()));
    }
    if (entry != null) {
      layers.add(entry.layer());
    }
    TimeRange leadIn = entry == null ? null : entry.layer().leadIn();
    Path grooveOf = null;
    for (BatchLayer layer : layers) {
      grooveOf = layer.grooveOf() == null ? grooveOf : groove(layer, known);
    }
    if (leadIn != null && entry.layer().grooveOf() != null) {
      throw new UsageException(
          entry.where() + ": leadIn and grooveOf both say where the bare groove is; give one");
    }
    boolean own = grooveOf != null && same(grooveOf, side.file());
    List<String> names = new ArrayList<>(rules.names(known));
    if (known.series() != null && !names.contains(known.series())) {
      names.add(0, known.series());
    }
    return new SideOrder(
        side,
        known.disc(),
        known.side(),
        names.isEmpty() ? null : String.join(", ", names),
        known.facts(),
        treatment(layers),
        leadIn,
        leadIn != null || own ? null : grooveOf);
  }

  private static boolean same(Path one, Path other) {
    return one.toAbsolutePath().normalize().equals(other.toAbsolutePath().normalize());
  }

  /** A side of the disc by its name, else a file. */
  private Path groove(BatchLayer layer, BatchRules.Known side) {
    Path ofDisc =
        side.disc() == null
            ? null
            : sidesOfDiscs.getOrDefault(side.disc(), Map.of()).get(layer.grooveOf());
    return ofDisc != null ? ofDisc : layer.folder().resolve(layer.grooveOf()).normalize();
  }

  private Treatment treatment(List<BatchLayer> layers) {
    List<Object> key = new ArrayList<>();
    for (BatchLayer layer : layers) {
      if (layer.treatment() != null) {
        key.add(new LinkedHashMap<>(layer.treatment().content()));
      }
    }
    Treatment known = treatments.get(key);
    if (known == null) {
      known = base;
      for (BatchLayer layer : layers) {
        if (layer.treatment() != null) {
          known = TreatmentFile.within(layer.treatment(), known);
        }
      }
      treatments.put(key, known);
    }
    return known;
  }
}
