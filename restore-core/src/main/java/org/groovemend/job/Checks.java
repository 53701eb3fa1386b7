package org.groovemend.job;

import java.util.List;
import org.groovemend.ledger.Check;

/** Makes checks that are no ledger's. */
final class Checks {

  private Checks() {}

  static Check holds(String name, String value, String words) {
    return new Check(name, Check.Outcome.HOLDS, value, value, words, List.of(), 0);
  }

  static Check fails(String name, String expected, String found, String words) {
    return new Check(name, Check.Outcome.FAILS, expected, found, words, List.of(), 1);
  }

  static Check notChecked(String name, String why) {
    return new Check(name, Check.Outcome.NOT_CHECKED, "", "", why, List.of(), 0);
  }
}
