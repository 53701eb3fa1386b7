package org.groovemend.stage;

/**
 * The settings of one treatment: always a record, validated in its compact constructor, every
 * component a number, string, boolean or enum with its unit in its name. The record is written to
 * the treatment file and to the ledger by component name.
 */
public interface StageParameters {
  StageId stage();

  /** Raised whenever the same values would give other results. */
  int version();

  /**
   * Refuses a setting that is out of its range, or no number.
   *
   * @param name of the setting, for the message
   * @throws IllegalArgumentException if {@code value} is not within {@code least} to {@code most},
   *     both included
   */
  static void requireWithin(String name, double value, double least, double most) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          name + " " + value + " is outside " + least + " to " + most);
    }
  }
}
