package org.groovemend.cli;

import java.io.IOException;
import java.util.List;
import java.util.Locale;

/** Starts the browser that the system prefers. */
final class Browser {

  private Browser() {}

  /** False if none could be started. */
  static boolean open(String address) {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    List<String> command =
        system.startsWith("windows")
            ? List.of("rundll32", "url.dll,FileProtocolHandler", address)
            : system.startsWith("mac") ? List.of("open", address) : List.of("xdg-open", address);
    try {
      new ProcessBuilder(command)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .redirectError(ProcessBuilder.Redirect.DISCARD)
          .start();
      return true;
    } catch (IOException e) {
      return false;
    }
  }
}
