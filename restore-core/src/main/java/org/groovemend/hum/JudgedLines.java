package org.groovemend.hum;

/**
 * The lines of a family and what speaks for those that are hum.
 *
 * @param series by channel and line; null for a silent one
 * @param evidence of the same; null for a line that is left
 * @param breaks of the lines that are not left
 * @param likeliest the line with the strongest evidence among the lowest, left or not; null if
 *     there is none
 * @param certain whether a line is certain and the family does not break off as a note does
 */
record JudgedLines(
    LineSeries[][] series,
    LineEvidence[][] evidence,
    FamilyBreaks breaks,
    Likeliest likeliest,
    boolean certain) {
  /** Lines of which one at least must be certain for the family to count. */
  static final int ANCHORS = 3;

  /**
   * @param harmonic 1 for the fundamental
   * @param evidence of the line
   */
  record Likeliest(int harmonic, LineEvidence evidence) {}

  /**
   * @param decibans weight of evidence from which a line is certain; of a family with such a line,
   *     others need half
   */
  static JudgedLines of(LineSeries[][] series, double decibans) {
    LineEvidence[][] evidence = new LineEvidence[series.length][series[0].length];
    Likeliest likeliest = null;
    boolean certain = false;
    for (int c = 0; c < series.length; c++) {
      for (int k = 0; k < series[c].length; k++) {
        LineEvidence e = series[c][k] == null ? null : LineEvidence.of(series[c][k]);
        if (e == null) {
          continue;
        }
        if (k < ANCHORS) {
          if (likeliest == null || e.decibans() > likeliest.evidence().decibans()) {
            likeliest = new Likeliest(k + 1, e);
          }
          certain |= e.steady() && e.decibans() >= decibans;
        }
        evidence[c][k] = e.steady() && e.decibans() >= decibans / 2 ? e : null;
      }
    }
    FamilyBreaks breaks = FamilyBreaks.of(series, evidence);
    return new JudgedLines(series, evidence, breaks, likeliest, certain && !breaks.tooMany());
  }
}
