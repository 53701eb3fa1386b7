package org.groovemend.decisions;

import java.util.Objects;
import org.groovemend.ledger.LedgerEdit;

/**
 * A decision about all edits that meet some conditions. Those that are stated must all be met; a
 * rule without conditions is about every edit.
 *
 * @param stage key of the stage, or null
 * @param channel 0 based, or null
 * @param fromFrame an edit must reach past it, or null
 * @param toFrame an edit must begin before it, or null
 * @param belowMargin the statistic must stand less than this above its threshold, in its own unit;
 *     or null. An edit without statistic or threshold has no margin and does not meet it
 * @param comment why, in the reviewer's words; may be empty
 * @param atUtc when, ISO 8601
 */
public record Rule(
    Verdict verdict,
    String stage,
    Integer channel,
    Long fromFrame,
    Long toFrame,
    Double belowMargin,
    String comment,
    String atUtc) {

  public Rule {
    Objects.requireNonNull(verdict, "verdict");
    Comments.require(comment);
    Objects.requireNonNull(atUtc, "atUtc");
    if (channel != null && (channel < 0 || channel > 1)) {
      throw new IllegalArgumentException("there is no channel " + channel);
    }
    if (fromFrame != null && fromFrame < 0
        || fromFrame != null && toFrame != null && toFrame <= fromFrame) {
      throw new IllegalArgumentException("from frame " + fromFrame + " to " + toFrame + " is none");
    }
    if (belowMargin != null && !Double.isFinite(belowMargin)) {
      throw new IllegalArgumentException("a margin of " + belowMargin + " is none");
    }
  }

  /** True if the rule is about this edit. */
  public boolean meets(LedgerEdit edit) {
    return meets(EditPlace.of(edit));
  }

  /** True if the rule is about the edit there. */
  public boolean meets(EditPlace edit) {
    return (stage == null || stage.equals(edit.stage()))
        && (channel == null || channel == edit.channel())
        && (fromFrame == null || edit.end() > fromFrame)
        && (toFrame == null || edit.start() < toFrame)
        && (belowMargin == null || edit.margin() < belowMargin);
  }
}
