package org.groovemend.watch;

import java.nio.file.Path;

/** Something that happened in a watched folder. */
public sealed interface WatchEvent {

  /**
   * A file is finished, or has stood still for so long that it will not be.
   *
   * @param doubt what is odd about its length, or null
   */
  record Ready(Path file, SeenFile seen, String doubt) implements WatchEvent {}

  /**
   * A file is not finished; told once for each reason.
   *
   * @param why after its name: "it is still growing"
   */
  record Waiting(Path file, String why) implements WatchEvent {}

  /** A file that was judged is there under another name, or besides. */
  record Renamed(Path file, Path before) implements WatchEvent {}

  /** A file that was told to be waited for is there no more. */
  record Gone(Path file) implements WatchEvent {}

  /**
   * A folder cannot be looked at; told once, and looked at on and on.
   *
   * @param why what the system says
   */
  record Lost(Path folder, String why) implements WatchEvent {}

  /** It can again. */
  record Back(Path folder) implements WatchEvent {}
}
