package org.groovemend.delivery;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;

/** The steps on the file system that a delivery takes, so that a test can let any of them fail. */
interface FileSteps {

  /** Creates one folder. */
  void createFolder(Path folder) throws IOException;

  /**
   * Creates a new folder with a free name that begins with {@code prefix}, readable by its owner
   * alone.
   */
  Path createHiddenFolder(Path parent, String prefix) throws IOException;

  /** Opens a new file for writing. */
  OutputStream create(Path file) throws IOException;

  /** Has the file's bytes stored on the disk. */
  void force(Path file) throws IOException;

  /** Has the folder's entries stored on the disk, where the system can. */
  void forceFolder(Path folder) throws IOException;

  /** Renames within a file system, in one step where the system can; the target must not exist. */
  void move(Path from, Path to) throws IOException;

  /** Renames within a folder, in one step, over what is there. */
  void replace(Path from, Path to) throws IOException;

  /** Deletes a file or an empty folder; nothing to do if there is none. */
  void delete(Path path) throws IOException;
}
