package org.groovemend.thump;

/**
 * A place that was looked at closely.
 *
 * @param evidence whether it is a thump
 */
record Judged(Thump thump, ThumpEvidence evidence) {
  double decibans() {
    return evidence.decibans();
  }
}
