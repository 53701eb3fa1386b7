package org.groovemend.delivery;

import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;

/** A file that was to be written exists, and nobody asked to replace it. */
public final class OutputExistsException extends FileAlreadyExistsException {

  private static final long serialVersionUID = 1L;

  private final transient Path path;

  public OutputExistsException(Path path) {
    super(path.toString());
    this.path = path;
  }

  public Path path() {
    return path;
  }

  @Override
  public String getMessage() {
    return path
        + " exists already; nothing was written. Choose another folder, or ask for files to be replaced.";
  }
}
