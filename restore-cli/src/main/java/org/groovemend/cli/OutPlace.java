package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Says before any work begins that an {@code --out} cannot be, and why. What the disk refuses later
 * is told by the job.
 */
final class OutPlace {

  private OutPlace() {}

  /**
   * @param folder where files are to be written; need not exist
   * @throws UsageException if it, or a folder above it, is a file
   * @throws IOException if nothing may be written there
   */
  static void requireFolder(Path folder) throws IOException {
    requireFolder(folder, "--out");
  }

  /** The same for another option. */
  static void requireFolder(Path folder, String option) throws IOException {
    if (folder.toString().isEmpty()) {
      throw new UsageException(option + " is empty; give a folder.");
    }
    requireFolder(folder, option, "give a folder; it is made if it is missing.");
  }

  /**
   * @param file to be written; need not exist, nor its folder
   * @throws UsageException if it cannot be a file: a folder, or in something that is no folder
   * @throws IOException if nothing may be written there
   */
  static void requireFile(Path file) throws IOException {
    requireFile(file, "--out");
  }

  /** The same for another option. */
  static void requireFile(Path file, String option) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    if (file.toString().isEmpty() || folder == null || Files.isDirectory(file)) {
      throw new UsageException(
          (file.toString().isEmpty() ? option + " is empty" : option + " " + file + " is a folder")
              + "; give the name of the file to write.");
    }
    requireFolder(folder, option, "give a file in a folder; the folder is made if it is missing.");
  }

  private static void requireFolder(Path wanted, String option, String whatToDo)
      throws IOException {
    Path there = wanted.toAbsolutePath();
    Path above = there.getParent();
    while (!Files.exists(there) && above != null) {
      there = above;
      above = there.getParent();
    }
    if (!Files.isDirectory(there)) {
      throw new UsageException(option + ": " + there + " is a file, not a folder; " + whatToDo);
    }
    if (!Files.isWritable(there)) {
      throw new IOException(Failures.noPermissionToWrite(there));
    }
  }
}
