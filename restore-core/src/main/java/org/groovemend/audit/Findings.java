package org.groovemend.audit;

import java.util.List;

/** What a {@link MeasuredAudit} says, in words and figures. */
final class Findings {

  private Findings() {}

  static List<Finding> of(MeasuredAudit m, ComparedSides sides) {
    FindingList found = new FindingList();
    PlaceFindings places = new PlaceFindings(m, sides, found);
    places.speed();
    places.place();
    places.breaks();
    LevelFindings levels = new LevelFindings(m, sides, found);
    levels.channels();
    levels.gain();
    new DepthFinding(m, sides, found).depth();
    SpectrumFindings spectrum = new SpectrumFindings(m, sides, found);
    boolean noise = spectrum.timeVarying();
    spectrum.filter(noise);
    levels.levels();
    new RangeFindings(m, found).ranges();
    spectrum.rest(noise);
    return found.sorted();
  }
}
