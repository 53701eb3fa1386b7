package org.groovemend.audio;

import java.nio.file.Path;

/** The parts of a path that a file always has and a root of a file system has not. */
public final class FilePath {

  private FilePath() {}

  /**
   * The file's name without any folder.
   *
   * @throws IllegalArgumentException if the path is the root of a file system
   */
  public static String name(Path file) {
    Path name = file.getFileName();
    if (name == null) {
      throw new IllegalArgumentException(file + " is not the name of a file");
    }
    return name.toString();
  }

  /**
   * The folder that the file lies in, absolute.
   *
   * @throws IllegalArgumentException if the path is the root of a file system
   */
  public static Path folder(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null) {
      throw new IllegalArgumentException(file + " is not the name of a file");
    }
    return folder;
  }
}
