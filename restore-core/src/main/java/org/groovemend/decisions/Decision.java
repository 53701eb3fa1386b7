package org.groovemend.decisions;

import java.util.Objects;

/**
 * What was said of one edit.
 *
 * @param edit its number in the ledger, from 1
 * @param verdict what was decided; null if there is a comment alone, so that rules count for the
 *     edit
 * @param comment why, in the reviewer's words; may be empty
 * @param atUtc when, ISO 8601
 */
public record Decision(long edit, Verdict verdict, String comment, String atUtc) {

  public Decision {
    Comments.require(comment);
    Objects.requireNonNull(atUtc, "atUtc");
    if (verdict == null && comment.isEmpty()) {
      throw new IllegalArgumentException("nothing is said of edit " + edit);
    }
    if (edit < 1) {
      throw new IllegalArgumentException("there is no edit " + edit + "; they count from 1");
    }
  }
}
