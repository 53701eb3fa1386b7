package org.groovemend.audio;

import java.io.IOException;
import java.nio.file.Path;

/** A file that cannot be taken as a side, in one sentence: which file, where in it, what is wrong, what to do. */
public final class InputRejectedException extends IOException {

  private static final long serialVersionUID = 1L;

  private final transient Path path;
  private final String where;
  private final String what;
  private final String whatToDo;

  /**
   * @param path the file
   * @param where byte offset, chunk or frame, as words: "at byte 36", "in chunk 'fmt '", "at frame 123"
   * @param what what is wrong there, without a full stop
   * @param whatToDo what a person can do about it, without a full stop
   */
  public InputRejectedException(Path path, String where, String what, String whatToDo) {
    super(path + ": " + where + ": " + what + "; " + whatToDo + ".");
    this.path = path;
    this.where = where;
    this.what = what;
    this.whatToDo = whatToDo;
  }

  public Path path() {
    return path;
  }

  public String where() {
    return where;
  }

  public String what() {
    return what;
  }

  public String whatToDo() {
    return whatToDo;
  }
}
