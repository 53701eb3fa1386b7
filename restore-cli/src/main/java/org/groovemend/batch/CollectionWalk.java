package org.groovemend.batch;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/**
 * Looks for sides in folders and all folders below them. Symbolic links are followed, but no folder
 * is entered and no file is taken twice, so that links which lead in circles do no harm; a place
 * that is not reached over a link goes before one that is.
 */
public final class CollectionWalk {

  private record Folder(Path path, String place) {}

  private final RootNames names;
  private final Path out;
  private final Set<Path> entered = new HashSet<>();
  private final Set<Path> taken = new HashSet<>();
  private final Deque<Folder> folders = new ArrayDeque<>();
  private final Deque<Folder> links = new ArrayDeque<>();
  private final List<FoundSide> sides = new ArrayList<>();
  private final List<String> troubles = new ArrayList<>();
  private final BagGuard bags = new BagGuard();
  private long passedOver;

  /**
   * @param out where results go: never entered
   */
  public CollectionWalk(RootNames names, Path out) {
    this.names = names;
    this.out = real(out);
  }

  /** A folder with all that is in it. */
  public void folder(Path folder) {
    enterAll(new Folder(folder, names.of(folder)));
  }

  /**
   * A file that a person named, whatever its name.
   *
   * @param root folder of the collection that it lies in, or elsewhere
   * @return the side, or null if the same file was there before
   */
  public FoundSide file(Path file, Path root) {
    Path whole = file.toAbsolutePath().normalize();
    Path top = root.toAbsolutePath().normalize();
    if (!whole.startsWith(top)) {
      top = whole.getParent();
    }
    String place = names.of(top) + "/" + joined(top.relativize(whole));
    return take(file, place, real(file), attributes(file));
  }

  /** What a pattern names below a folder: folders with all that is in them, and files. */
  public void matching(Path base, String glob) throws IOException {
    var matcher = base.getFileSystem().getPathMatcher("glob:" + glob);
    String name = names.of(base);
    Deque<Path> todo = new ArrayDeque<>(List.of(base));
    Set<Path> seen = new HashSet<>();
    while (!todo.isEmpty()) {
      Path folder = todo.pop();
      if (!seen.add(real(folder))) {
        continue;
      }
      for (Path entry : entries(folder)) {
        Path below = base.relativize(entry);
        boolean isFolder = Files.isDirectory(entry);
        if (matcher.matches(below)) {
          if (isFolder) {
            enterAll(new Folder(entry, name + "/" + joined(below)));
          } else {
            fileByName(entry, name + "/" + joined(below));
          }
        } else if (isFolder) {
          todo.add(entry);
        }
      }
    }
  }

  /** The bags that were met. */
  public BagGuard bags() {
    return bags;
  }

  /** All that was found. */
  public Collected finish() {
    while (!links.isEmpty()) {
      Folder next = links.poll();
      if (Files.isDirectory(next.path())) {
        enterAll(next);
      } else {
        fileByName(next.path(), next.place());
      }
    }
    sides.sort(Comparator.comparing(FoundSide::place));
    return new Collected(sides, troubles, passedOver);
  }

  /** Says that something a person named cannot be looked at. */
  public void trouble(String sentence) {
    troubles.add(sentence);
  }

  private void enterAll(Folder top) {
    enter(top);
    while (!folders.isEmpty()) {
      enter(folders.poll());
    }
  }

  private void enter(Folder folder) {
    Path real = real(folder.path());
    if (real.equals(out) || !entered.add(real)) {
      return;
    }
    if (isBag(folder.path())) {
      // what lies beside the payload are texts about it
      troubles.addAll(bags.add(folder.path()));
      folders.add(new Folder(folder.path().resolve("data"), folder.place()));
      return;
    }
    for (Path entry : entries(folder.path())) {
      String name = entry.getFileName().toString();
      Folder next = new Folder(entry, folder.place() + "/" + name);
      // one question to the system for each entry: there may be hundreds of thousands
      BasicFileAttributes is = attributes(entry, LinkOption.NOFOLLOW_LINKS);
      if (name.startsWith(".")) {
        passedOver++;
      } else if (is != null && is.isSymbolicLink()) {
        links.add(next);
      } else if (is != null && is.isDirectory()) {
        folders.add(next);
      } else if (SideNames.isSide(entry)) {
        take(entry, next.place(), real.resolve(name), is);
      } else {
        passedOver++;
      }
    }
  }

  private static boolean isBag(Path folder) {
    return Files.isRegularFile(folder.resolve("bagit.txt"), LinkOption.NOFOLLOW_LINKS)
        && Files.isDirectory(folder.resolve("data"), LinkOption.NOFOLLOW_LINKS);
  }

  /** What a file is, null if the system does not tell; that is told when it is to be read. */
  private static BasicFileAttributes attributes(Path file, LinkOption... how) {
    try {
      return Files.readAttributes(file, BasicFileAttributes.class, how);
    } catch (IOException e) {
      return null;
    }
  }

  private List<Path> entries(Path folder) {
    List<Path> entries = new ArrayList<>();
    try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder)) {
      stream.forEach(entries::add);
    } catch (IOException | DirectoryIteratorException e) {
      troubles.add(
          folder + ": this folder cannot be read; nothing in it was looked at. " + reason(e));
    }
    entries.sort(Comparator.comparing(path -> path.getFileName().toString()));
    return entries;
  }

  private static String reason(Exception e) {
    return e.getMessage() == null || e.getMessage().isEmpty()
        ? e.getClass().getSimpleName()
        : e.getMessage();
  }

  private void fileByName(Path file, String place) {
    if (SideNames.isSide(file)) {
      take(file, place, real(file), attributes(file));
    } else {
      passedOver++;
    }
  }

  private FoundSide take(Path file, String place, Path real, BasicFileAttributes is) {
    if (!taken.add(real)) {
      return null;
    }
    FoundSide side =
        is == null
            ? new FoundSide(file, place, -1, 0)
            : new FoundSide(file, place, is.size(), is.lastModifiedTime().to(TimeUnit.NANOSECONDS));
    sides.add(side);
    return side;
  }

  private static Path real(Path path) {
    try {
      return path.toRealPath();
    } catch (IOException e) {
      return path.toAbsolutePath().normalize();
    }
  }

  private static String joined(Path relative) {
    StringBuilder text = new StringBuilder();
    for (Path part : relative) {
      text.append(text.length() == 0 ? "" : "/").append(part);
    }
    return text.toString();
  }
}
