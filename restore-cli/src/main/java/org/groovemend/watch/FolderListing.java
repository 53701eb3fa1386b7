package org.groovemend.watch;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.groovemend.batch.SideNames;

/**
 * One look at a folder.
 *
 * @param files sides in it, by path
 * @param lost folders that could not be looked at, and why
 */
record FolderListing(SortedMap<Path, SeenFile> files, Map<Path, String> lost) {

  /**
   * @param below whether folders in it are looked at too; links to folders are not followed
   */
  static FolderListing of(Path folder, boolean below) {
    FolderListing listing = new FolderListing(new TreeMap<>(), new TreeMap<>());
    listing.enter(folder, below, new HashSet<>());
    return listing;
  }

  private void enter(Path folder, boolean below, Set<Path> entered) {
    if (!entered.add(folder)) {
      return;
    }
    try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder)) {
      for (Path entry : stream) {
        look(entry, below, entered);
      }
    } catch (IOException | DirectoryIteratorException e) {
      String said = e.getMessage();
      lost.put(
          folder,
          !Files.exists(folder)
              ? "it is not there"
              : said == null || said.equals(folder.toString())
                  ? "this user may not look into it"
                  : said);
    }
  }

  private void look(Path entry, boolean below, Set<Path> entered) {
    try {
      if (SideNames.isSide(entry)) {
        BasicFileAttributes is = Files.readAttributes(entry, BasicFileAttributes.class);
        if (is.isRegularFile()) {
          files.put(entry, SeenFile.of(is));
        }
      } else if (below && Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS)) {
        if (!entry.getFileName().toString().startsWith(".")) {
          enter(entry, true, entered);
        }
      }
    } catch (IOException e) {
      // gone since it was listed, or a link to nothing: as if it had not been listed
    }
  }
}
