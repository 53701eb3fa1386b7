package org.groovemend.bag;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.regex.Pattern;

/**
 * File paths as manifests write them: relative to the bag, parts joined by "/", with CR, LF and "%"
 * as %0D, %0A and %25 (RFC 8493, section 2.1.3).
 */
final class BagPath {

  private static final Pattern ENCODED = Pattern.compile("%(0[AaDd]|25)");

  private BagPath() {}

  /** The path of a file below the bag, not encoded. */
  static String of(Path bag, Path file) {
    StringBuilder path = new StringBuilder();
    for (Path part : bag.relativize(file)) {
      path.append(path.isEmpty() ? "" : "/").append(part);
    }
    return path.toString();
  }

  static String encoded(String path) {
    return path.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A");
  }

  /** Other things behind a percent sign stay: older bags did not encode it. */
  static String decoded(String path) {
    return ENCODED
        .matcher(path)
        .replaceAll(m -> Character.toString(Integer.parseInt(m.group(1), 16)));
  }

  /**
   * Whether the path stays in the bag: not absolute, no "..", no home folder, no drive (RFC 8493,
   * section 5).
   */
  static boolean safe(String path) {
    if (path.isEmpty()
        || path.startsWith("/")
        || path.startsWith("~")
        || path.startsWith("\\")
        || path.indexOf('\0') >= 0
        || path.matches("^[A-Za-z]:.*")) {
      return false;
    }
    for (String part : path.split("[/\\\\]", -1)) {
      if (part.equals("..")) {
        return false;
      }
    }
    return true;
  }

  /** Whether this system can have such a path: not, for one, an accent where names are ASCII. */
  static boolean possible(String path) {
    try {
      return Path.of(path) != null;
    } catch (InvalidPathException e) {
      return false;
    }
  }
}
