package org.groovemend.cli;

import java.util.Collection;
import java.util.Locale;

/** Finds what a person probably meant. */
final class Nearest {

  private Nearest() {}

  /** " (did you mean \"x\"?)", or nothing if no known word is near. */
  static String hint(String word, Collection<String> known) {
    String best = null;
    int least = Integer.MAX_VALUE;
    for (String candidate : known) {
      int distance = distance(word.toLowerCase(Locale.ROOT), candidate.toLowerCase(Locale.ROOT));
      if (distance < least) {
        least = distance;
        best = candidate;
      }
    }
    return best != null && least <= Math.max(2, best.length() / 3)
        ? " (did you mean \"" + best + "\"?)"
        : "";
  }

  /** Edit distance of Levenshtein (Soviet Physics Doklady 10, 1966). */
  static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int substitute = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(substitute, Math.min(row[j], row[j - 1]) + 1);
      }
    }
    return row[b.length()];
  }
}
