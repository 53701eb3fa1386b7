package org.groovemend.delivery;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;

/** Folders made on the way to an output, so that they can be taken back. */
final class MadeFolders {

  private final FileSteps steps;
  private final Deque<Path> made = new ArrayDeque<>();

  MadeFolders(FileSteps steps) {
    this.steps = steps;
  }

  /** Makes a folder and those above it where they are missing. */
  void make(Path wanted) throws IOException {
    if (Files.isDirectory(wanted)) {
      return;
    }
    if (Files.exists(wanted)) {
      throw new NotDirectoryException(wanted.toString());
    }
    if (wanted.getParent() != null) {
      make(wanted.getParent());
    }
    try {
      steps.createFolder(wanted);
      made.push(wanted);
    } catch (FileAlreadyExistsException e) {
      if (!Files.isDirectory(wanted)) {
        throw e;
      }
      // another run was quicker: its folder, not ours to remove
    }
  }

  /** Removes those that were made here. */
  void takeBack() throws IOException {
    while (!made.isEmpty()) {
      steps.delete(made.pop());
    }
  }
}
