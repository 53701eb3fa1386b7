package org.groovemend.fixity;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.groovemend.batch.Catalogue;
import org.groovemend.batch.CatalogueQuery;

/** What the catalogue of a collection knows of its results; read from a copy. */
final class StoreCatalogue implements Closeable {

  /**
   * What is known of a ledger.
   *
   * @param original where the transfer lay
   * @param seal of the ledger
   */
  record Known(Path original, String seal) {}

  private final Path folder;
  private final Path copy;
  private final Catalogue catalogue;

  private StoreCatalogue(Path folder, Path copy, Catalogue catalogue) {
    this.folder = folder;
    this.copy = copy;
    this.catalogue = catalogue;
  }

  /** Null if a folder has none. */
  static StoreCatalogue of(Path folder) throws IOException {
    Path file = folder.resolve(Catalogue.NAME);
    if (!Files.isRegularFile(file)) {
      return null;
    }
    Path copy = Files.createTempDirectory("groovemend-fixity-");
    StoreCatalogue made = new StoreCatalogue(folder, copy, null);
    try {
      Path there = copy.resolve(Catalogue.NAME);
      Files.copy(file, there);
      Path ahead = folder.resolve(Catalogue.NAME + "-wal");
      if (Files.isRegularFile(ahead)) {
        Files.copy(ahead, copy.resolve(Catalogue.NAME + "-wal"));
      }
      // a catalogue of an earlier version is taken on; it is only a copy
      return new StoreCatalogue(folder, copy, Catalogue.open(there));
    } catch (IOException | RuntimeException e) {
      made.remove();
      throw e;
    }
  }

  /** What it says of a ledger; null if nothing. */
  Known of(Path ledgerFolder, String ledger) throws IOException {
    List<Known> found = new ArrayList<>();
    catalogue.forEach(
        CatalogueQuery.results(within(ledgerFolder), ledger),
        row ->
            found.add(
                new Known(
                    Path.of(String.valueOf(row.get("original"))),
                    String.valueOf(row.get("ledger_seal")))));
    return found.isEmpty() ? null : found.get(0);
  }

  private String within(Path below) {
    StringBuilder text = new StringBuilder();
    for (Path part : folder.relativize(below)) {
      text.append(text.length() == 0 ? "" : "/").append(part);
    }
    return text.toString();
  }

  /** Transfers that lie in the store itself. */
  Set<Path> originalsBelow(Path store) throws IOException {
    Set<Path> below = new HashSet<>();
    catalogue.forEach(
        CatalogueQuery.only(List.of("original")),
        row -> {
          Path original = Path.of(String.valueOf(row.get("original"))).normalize();
          if (original.startsWith(store)) {
            below.add(original);
          }
        });
    return below;
  }

  /** Is told every ledger that ought to be there. */
  interface LedgerTaker {
    void take(Path ledger) throws IOException;
  }

  void forEachLedger(LedgerTaker taker) throws IOException {
    catalogue.forEach(
        CatalogueQuery.only(List.of("state", "folder", "ledger")),
        row -> {
          if ("done".equals(row.get("state")) && row.get("ledger") != null) {
            taker.take(
                folder
                    .resolve(String.valueOf(row.get("folder")))
                    .resolve(String.valueOf(row.get("ledger"))));
          }
        });
  }

  /** Bytes of transfers that were done. */
  long originalBytes() throws IOException {
    long[] sum = {0};
    catalogue.forEach(
        CatalogueQuery.only(List.of("state", "bytes")),
        row -> {
          if ("done".equals(row.get("state")) && row.get("bytes") instanceof Number n) {
            sum[0] += n.longValue();
          }
        });
    return sum[0];
  }

  private void remove() throws IOException {
    try (var files = Files.list(copy)) {
      for (Path file : files.toList()) {
        Files.deleteIfExists(file);
      }
    }
    Files.deleteIfExists(copy);
  }

  @Override
  public void close() throws IOException {
    catalogue.close();
    remove();
  }
}
