package org.groovemend.bag;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A manifest as it was read.
 *
 * @param name file name
 * @param algorithm null if this program does not know it
 * @param checksums by path, as it is on the disk; lower case
 * @param findings lines that are none
 */
record Manifest(
    String name,
    DigestAlgorithm algorithm,
    Map<String, String> checksums,
    List<BagFinding> findings) {

  // programs for checksums write a star before the path of a file read as binary
  private static final Pattern LINE = Pattern.compile("([0-9A-Fa-f]+)[ \\t]+\\*?(.+)");

  static Manifest parse(String name, String text) {
    String key = name.substring(name.indexOf('-') + 1, name.length() - ".txt".length());
    DigestAlgorithm algorithm = DigestAlgorithm.of(key);
    Map<String, String> checksums = new LinkedHashMap<>();
    List<BagFinding> findings = new ArrayList<>();
    int number = 0;
    for (String line : text.split("\r\n|\r|\n")) {
      number++;
      if (line.isBlank()) {
        continue;
      }
      Matcher matcher = LINE.matcher(line);
      if (!matcher.matches()
          || algorithm != null && matcher.group(1).length() != algorithm.digits()) {
        findings.add(
            new BagFinding(
                BagFinding.Kind.MALFORMED,
                name,
                name + ": line " + number + " is not a checksum and a path."));
        continue;
      }
      String path = BagPath.decoded(matcher.group(2));
      if (path.startsWith("./")) {
        path = path.substring(2);
      }
      if (!BagPath.safe(path)) {
        findings.add(
            new BagFinding(
                BagFinding.Kind.UNSAFE,
                path,
                name + ": line " + number + " holds no path inside the bag; it was not followed."));
      } else if (!BagPath.possible(path)) {
        findings.add(
            new BagFinding(
                BagFinding.Kind.MALFORMED,
                name,
                name
                    + ": line "
                    + number
                    + " holds characters that file names cannot have here; set a UTF-8 locale, such"
                    + " as LC_ALL=C.UTF-8, and try again."));
      } else if (checksums.put(path, matcher.group(1).toLowerCase(Locale.ROOT)) != null) {
        findings.add(
            new BagFinding(
                BagFinding.Kind.MALFORMED, name, name + ": " + path + " is listed twice."));
      }
    }
    return new Manifest(name, algorithm, checksums, findings);
  }
}
