package org.groovemend.audio;

import java.io.IOException;
import java.nio.file.Path;

/**
 * A file that cannot be taken as a side, in one sentence: which file, where in it, what is wrong,
 * what to do.
 */
public final class InputRejectedException extends IOException {

  private static final long serialVersionUID = 1L;

  private final transient Path path;
  private final String where;
  private final String what;
  private final String whatToDo;

  /**
   * @param path the file
   * @param where byte offset, chunk or frame, as words: "at byte 36", "in chunk 'fmt '", "at frame
   *     123"; "" if the file itself is the place
   * @param what what is wrong there, without a full stop
   * @param whatToDo what a person can do about it, without a full stop
   */
  public InputRejectedException(Path path, String where, String what, String whatToDo) {
    super(path + ": " + at(where) + what + "; " + whatToDo + ".");
    this.path = path;
    this.where = where;
    this.what = what;
    this.whatToDo = whatToDo;
  }

  private static String at(String where) {
    return where.isEmpty() ? "" : where + ": ";
  }

  public Path path() {
    return path;
  }

  /** Where in the file; "" if the file itself is the place. */
  public String where() {
    return where;
  }

  public String what() {
    return what;
  }

  /** Place and trouble without file and remedy: "at byte 36: the size is 0". */
  public String finding() {
    return at(where) + what;
  }

  public String whatToDo() {
    return whatToDo;
  }
}
