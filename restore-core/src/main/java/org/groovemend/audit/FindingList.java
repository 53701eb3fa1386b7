package org.groovemend.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Findings while they are gathered. */
final class FindingList {
  private final List<Finding> found = new ArrayList<>();

  /**
   * Adds one.
   *
   * @param confidence taken to lie between 0 and 1
   */
  void add(Finding.Kind kind, double confidence, Map<String, Object> figures, String words) {
    found.add(new Finding(kind, words, Math.max(0, Math.min(1, confidence)), figures));
  }

  boolean has(Finding.Kind kind) {
    return found.stream().anyMatch(finding -> finding.kind() == kind);
  }

  /** By kind. */
  List<Finding> sorted() {
    return found.stream().sorted(Comparator.comparing(Finding::kind)).toList();
  }

  /** The same words in every language of the machine. */
  static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  /** Names and values in turn, in this order. */
  static Map<String, Object> figures(Object... pairs) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      map.put((String) pairs[i], pairs[i + 1]);
    }
    return map;
  }
}
