package org.groovemend.ledger;

/**
 * A stage that ran.
 *
 * @param name its key, such as "clicks"
 * @param kind {@link #REPAIR} or {@link #SIGNAL}
 */
public record AppliedStage(String name, String kind) {

  /** Changes only the ranges it logs as edits. */
  public static final String REPAIR = "repair";

  /** May change any sample. */
  public static final String SIGNAL = "signal";

  public AppliedStage {
    if (name == null || name.isBlank()) {
      throw new IllegalArgumentException("a stage needs a name");
    }
    if (!REPAIR.equals(kind) && !SIGNAL.equals(kind)) {
      throw new IllegalArgumentException(
          "kind " + kind + " of stage " + name + " is not repair or signal");
    }
  }
}
