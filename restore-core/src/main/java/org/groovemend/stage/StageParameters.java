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
}
