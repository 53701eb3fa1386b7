package org.groovemend.decisions;

import java.util.Objects;

/**
 * What was decided about one edit.
 *
 * @param edit its number in the ledger, from 1
 * @param comment why, in the reviewer's words; may be empty
 * @param atUtc when, ISO 8601
 */
public record Decision(long edit, Verdict verdict, String comment, String atUtc) {

  public Decision {
    Objects.requireNonNull(verdict, "verdict");
    Comments.require(comment);
    Objects.requireNonNull(atUtc, "atUtc");
    if (edit < 1) {
      throw new IllegalArgumentException("there is no edit " + edit + "; they count from 1");
    }
  }
}
