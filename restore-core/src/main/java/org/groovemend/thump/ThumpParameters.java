package org.groovemend.thump;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of thump repair.
 *
 * @param evidenceDecibans weight of evidence from which a place is taken for a thump, 1 to 60; 0
 *     switches the stage off
 * @param longestThumpMilliseconds longest ring that is taken out, 50 to 500
 */
public record ThumpParameters(
    @Setting(
            why =
                "Weight of evidence from which a place is taken for a thump rather than for a low note or a drum; 0"
                    + " switches the stage off",
            unit = "decibans",
            min = 0,
            max = 60)
        double evidenceDecibans,
    @Setting(
            why =
                "Longest ring that is taken out; rings of a pickup arm last 20 to 350 milliseconds",
            unit = "milliseconds",
            min = 50,
            max = 500)
        double longestThumpMilliseconds)
    implements StageParameters {

  public ThumpParameters {
    if (evidenceDecibans != 0) {
      StageParameters.requireWithin("evidenceDecibans", evidenceDecibans, 1, 60);
    }
    StageParameters.requireWithin("longestThumpMilliseconds", longestThumpMilliseconds, 50, 500);
  }

  public static ThumpParameters defaults() {
    return new ThumpParameters(11, 350);
  }

  /** Only thumps that hardly anything else could be. */
  public static ThumpParameters gentle() {
    return new ThumpParameters(25, 350);
  }

  /** Repairs nothing. */
  public static ThumpParameters neutral() {
    return new ThumpParameters(0, 350);
  }

  public boolean isNeutral() {
    return evidenceDecibans == 0;
  }

  @Override
  public StageId stage() {
    return StageId.THUMPS;
  }

  @Override
  public int version() {
    return 1;
  }
}
