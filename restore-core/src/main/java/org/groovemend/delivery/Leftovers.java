package org.groovemend.delivery;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import java.util.stream.Stream;

/** What outputs that were never finished leave in a folder when their process is killed. */
public final class Leftovers {

  private Leftovers() {}

  /**
   * Removes the hidden folders of outputs in a folder, not in those below it. Where an output was
   * to replace files, these may be in there.
   *
   * <p>The caller vouches that nobody writes to the folder, and that what was to be replaced can be
   * made anew.
   *
   * @return how many there were
   */
  public static int remove(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return 0;
    }
    List<Path> hidden;
    try (Stream<Path> entries = Files.list(folder)) {
      hidden =
          entries
              .filter(path -> path.getFileName().toString().startsWith(OutputSet.PREFIX))
              .filter(path -> Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS))
              .toList();
    }
    for (Path one : hidden) {
      Files.walkFileTree(
          one,
          new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes is) throws IOException {
              Files.delete(file);
              return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(Path dir, IOException trouble)
                throws IOException {
              if (trouble != null) {
                throw trouble;
              }
              Files.delete(dir);
              return FileVisitResult.CONTINUE;
            }
          });
    }
    return hidden.size();
  }
}
