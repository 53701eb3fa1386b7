package org.groovemend.ledger;

import java.util.List;

/**
 * One thing that was checked.
 *
 * @param name a fixed short name for programs: see {@link Verifier}
 * @param outcome whether it holds
 * @param expected what the ledger says, "" if that is no single value
 * @param found what was found, "" if nothing was or that is no single value
 * @param words one sentence for people
 * @param mismatches what differs, place by place, the first {@link Verifier#LIMIT} of them
 * @param mismatchCount how many differences there are in all
 */
public record Check(
    String name,
    Outcome outcome,
    String expected,
    String found,
    String words,
    List<Mismatch> mismatches,
    long mismatchCount) {

  /** How a check ended. */
  public enum Outcome {
    HOLDS,
    FAILS,
    /**
     * A file it needs is not at hand, is damaged itself, or the check does not apply; the words say
     * which.
     */
    NOT_CHECKED
  }

  public static Check holds(String name, String value, String words) {
    return new Check(name, Outcome.HOLDS, value, value, words, List.of(), 0);
  }

  public static Check fails(String name, String expected, String found, String words) {
    return new Check(name, Outcome.FAILS, expected, found, words, List.of(), 1);
  }

  public static Check notChecked(String name, String why) {
    return new Check(name, Outcome.NOT_CHECKED, "", "", why, List.of(), 0);
  }
}
