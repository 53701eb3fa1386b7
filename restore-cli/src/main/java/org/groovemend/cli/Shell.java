package org.groovemend.cli;

/** Words of a command line that a person is to type. */
final class Shell {

  private Shell() {}

  /**
   * A word as a POSIX shell takes it: in single quotes if it holds anything but plain characters.
   */
  static String word(String text) {
    return text.matches("[\\w@%+=:,./\\\\-]+") ? text : "'" + text.replace("'", "'\\''") + "'";
  }
}
