package org.groovemend.hum;

/**
 * Moments at which a whole family breaks off for a quarter of a second, as the multiples of a note
 * do together where it is struck anew. Music that cancels a line of hum for a moment leaves the
 * other lines.
 *
 * @param seen moments at which a break would show
 * @param broken of these, moments with a break
 */
record FamilyBreaks(int seen, int broken) {
  /**
   * Power over the neighbourhood's from which a break would show: 18 dB. The noise of a quarter of
   * a second is 8/3 of that of a Hann window of one, and seems to cancel the line once in some
   * 100,000 quarters.
   */
  private static final double CLEAR = 64;

  /** Power below the strongest line's from which a line is lost in its side lobes: 12 dB. */
  private static final double WEAK = 1.0 / 16;

  /**
   * Power over the level's from which a note is on the line as well: 3 dB. What cancels the line at
   * one moment adds to it at the next, so that such moments are not judged.
   */
  private static final double TOPPED = 2;

  /** Share of the moments at which hum may seem to break off: by chance all of its lines fall. */
  private static final double BROKEN_SHARE = 0.01;

  /**
   * @param series by channel and line; null for a silent one
   * @param evidence of the same; null where the line is not in question
   */
  static FamilyBreaks of(LineSeries[][] series, LineEvidence[][] evidence) {
    double strongest = 0;
    int knots = 0;
    int harmonic = 0;
    boolean lone = true;
    for (int c = 0; c < series.length; c++) {
      for (int k = 0; k < series[c].length; k++) {
        if (evidence[c][k] != null) {
          strongest = Math.max(strongest, square(evidence[c][k]));
          knots = series[c][k].knots();
          lone &= harmonic == 0 || harmonic == k + 1;
          harmonic = k + 1;
        }
      }
    }
    int seen = 0;
    int broken = 0;
    for (int j = 0; j < knots; j++) {
      Moment moment = new Moment();
      for (int c = 0; c < series.length; c++) {
        for (int k = 0; k < series[c].length; k++) {
          LineEvidence e = evidence[c][k];
          if (e != null && square(e) >= WEAK * strongest) {
            moment.look(series[c][k], square(e), k + 1, j);
          }
        }
      }
      if (lone ? moment.lines > 0 : moment.several) {
        seen++;
        broken += moment.gone == moment.lines ? 1 : 0;
      }
    }
    return new FamilyBreaks(seen, broken);
  }

  boolean tooMany() {
    return broken > BROKEN_SHARE * seen;
  }

  private static double square(LineEvidence e) {
    return e.level() * e.level();
  }

  /** The lines that stand out at one moment. */
  private static final class Moment {
    private int lines;
    private int gone;
    private int harmonic;
    private boolean several;

    void look(LineSeries line, double square, int multiple, int j) {
      if (Double.isInfinite(line.floor()[j])
          || line.floorAbout(j) > square / CLEAR
          || line.mostAbout(j) > TOPPED * square) {
        return;
      }
      lines++;
      gone += line.least()[j] < LineEvidence.GONE * square ? 1 : 0;
      several |= harmonic != 0 && harmonic != multiple;
      harmonic = multiple;
    }
  }
}
