package org.groovemend.fixity;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.groovemend.bag.ListedFile;
import org.groovemend.batch.Catalogue;
import org.groovemend.fixity.FixityFinding.Kind;
import org.groovemend.job.deliver.VerifyDelivery;

/** Goes through a store folder by folder; symbolic links are not followed. */
final class StoreWalk {

  private static final String LEDGER = ".ledger.jsonl";

  /** Files that a collection keeps for itself beside its results. */
  private static final Pattern OWN =
      Pattern.compile(
          "(shard-\\d+-of-\\d+\\.)?(catalogue\\.sqlite(-wal|-shm)?|batch\\.(lock|log))|overview\\.(html|csv)");

  /** Is given what is found. */
  interface Sink {
    void task(FixityTask task) throws IOException;

    void finding(FixityFinding finding);

    /** Files that belong to a ledger but that no digest vouches for, such as pages. */
    void companions(int count);
  }

  private record Folder(Path path, StoreCatalogue catalogue) {}

  private final Path store;
  private final boolean thorough;
  private final Path record;
  private final Sink sink;
  private final List<StoreCatalogue> catalogues = new ArrayList<>();
  private Set<Path> originals = Set.of();

  /**
   * @param store folder, absolute and without detours
   * @param record a file that is not of the store wherever it lies
   */
  StoreWalk(Path store, boolean thorough, Path record, Sink sink) {
    this.store = store;
    this.thorough = thorough;
    this.record = record;
    this.sink = sink;
  }

  void run() throws IOException {
    Deque<Folder> todo = new ArrayDeque<>();
    todo.push(new Folder(store, null));
    try {
      while (!todo.isEmpty()) {
        folder(todo.pop(), todo);
      }
      for (StoreCatalogue catalogue : catalogues) {
        catalogue.forEachLedger(
            ledger -> {
              if (!Files.exists(ledger)) {
                String name = store.relativize(ledger).toString();
                sink.finding(
                    new FixityFinding(
                        Kind.MISSING, name, name + " is missing; the catalogue names it."));
              }
            });
      }
    } finally {
      for (StoreCatalogue catalogue : catalogues) {
        catalogue.close();
      }
    }
  }

  private void folder(Folder folder, Deque<Folder> todo) throws IOException {
    if (Files.isRegularFile(folder.path().resolve("bagit.txt"), LinkOption.NOFOLLOW_LINKS)) {
      sink.task(new BagTask(store, folder.path()));
      for (ListedFile file : ListedFile.of(folder.path())) {
        sink.task(new BagFileTask(store, file));
      }
      return;
    }
    if (VerifyDelivery.takes(folder.path())) {
      sink.task(new DeliveryTask(store, folder.path()));
      return;
    }
    StoreCatalogue catalogue = folder.catalogue();
    StoreCatalogue own = StoreCatalogue.of(folder.path());
    if (own != null) {
      catalogue = own;
      catalogues.add(own);
      originals = new TreeSet<>(originals);
      originals.addAll(own.originalsBelow(store));
    }
    List<Path> files = new ArrayList<>();
    List<Path> folders = new ArrayList<>();
    entries(folder.path(), files, folders);
    for (int i = folders.size() - 1; i >= 0; i--) {
      todo.push(new Folder(folders.get(i), catalogue));
    }
    Set<String> stems = new TreeSet<>();
    for (Path file : files) {
      String name = file.getFileName().toString();
      if (name.endsWith(LEDGER)) {
        stems.add(name.substring(0, name.length() - LEDGER.length()));
        sink.task(
            new LedgerTask(
                store,
                file,
                catalogue == null ? null : catalogue.of(folder.path(), name),
                thorough));
      }
    }
    strangers(files, stems, own != null);
  }

  private void strangers(List<Path> files, Set<String> stems, boolean collection) {
    int companions = 0;
    for (Path file : files) {
      String name = file.getFileName().toString();
      boolean ours =
          name.endsWith(LEDGER)
              || collection && OWN.matcher(name).matches()
              || originals.contains(file)
              || file.equals(record);
      if (ours) {
        continue;
      }
      String stem = stem(name, stems);
      if (stem == null) {
        String told = store.relativize(file).toString();
        sink.finding(
            new FixityFinding(
                Kind.UNEXPECTED, told, told + " is not vouched for and belongs to no ledger."));
      } else if (!name.startsWith(stem + ".restored.") && !name.startsWith(stem + ".removed.")) {
        companions++;
      }
    }
    sink.companions(companions);
  }

  /** The name of a ledger that a file belongs to by its own name, such as a page; or null. */
  private static String stem(String name, Set<String> stems) {
    for (int dot = name.lastIndexOf('.'); dot > 0; dot = name.lastIndexOf('.', dot - 1)) {
      if (stems.contains(name.substring(0, dot))) {
        return name.substring(0, dot);
      }
    }
    return null;
  }

  private void entries(Path folder, List<Path> files, List<Path> folders) {
    try (DirectoryStream<Path> all = Files.newDirectoryStream(folder)) {
      for (Path entry : all) {
        if (Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS)) {
          folders.add(entry);
        } else {
          files.add(entry);
        }
      }
    } catch (IOException | DirectoryIteratorException e) {
      String name = store.relativize(folder).toString();
      sink.finding(
          new FixityFinding(
              Kind.UNREADABLE, name, "The folder " + name + " cannot be read: " + e.getMessage()));
    }
    files.sort(Comparator.naturalOrder());
    folders.sort(Comparator.naturalOrder());
  }

  /** Bytes of all files, and of the transfers that the catalogue at the top names elsewhere. */
  static long bytes(Path store) throws IOException {
    long[] sum = {0};
    Files.walkFileTree(
        store,
        new java.nio.file.SimpleFileVisitor<>() {
          @Override
          public java.nio.file.FileVisitResult visitFile(
              Path file, java.nio.file.attribute.BasicFileAttributes is) {
            sum[0] += is.size();
            return java.nio.file.FileVisitResult.CONTINUE;
          }

          @Override
          public java.nio.file.FileVisitResult visitFileFailed(Path file, IOException e) {
            return java.nio.file.FileVisitResult.CONTINUE;
          }
        });
    if (Files.isRegularFile(store.resolve(Catalogue.NAME))) {
      try (StoreCatalogue catalogue = StoreCatalogue.of(store)) {
        sum[0] += catalogue.originalBytes();
      }
    }
    return sum[0];
  }
}
