package org.groovemend.hum;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of hum removal.
 *
 * @param evidenceDecibans weight of evidence from which a steady line is taken for hum, 1 to 60; 0
 *     switches the stage off
 * @param highestLineHertz lines above are left, 60 to 1000
 */
public record HumParameters(
    @Setting(
            why =
                "Weight of evidence from which a line at a multiple of the mains frequency is taken for hum rather than for"
                    + " a note; 0 switches the stage off",
            unit = "decibans",
            min = 0,
            max = 60)
        double evidenceDecibans,
    @Setting(
            why = "Lines above are left; hum seldom stands out there",
            unit = "hertz",
            min = 60,
            max = 1000)
        double highestLineHertz)
    implements StageParameters {

  public HumParameters {
    if (evidenceDecibans != 0) {
      StageParameters.requireWithin("evidenceDecibans", evidenceDecibans, 1, 60);
    }
    StageParameters.requireWithin("highestLineHertz", highestLineHertz, 60, 1000);
  }

  public static HumParameters defaults() {
    return new HumParameters(11, 1000);
  }

  /** Only hum that hardly anything else could be. */
  public static HumParameters gentle() {
    return new HumParameters(25, 1000);
  }

  /** Takes nothing. */
  public static HumParameters neutral() {
    return new HumParameters(0, 1000);
  }

  public boolean isNeutral() {
    return evidenceDecibans == 0;
  }

  @Override
  public StageId stage() {
    return StageId.HUM;
  }

  @Override
  public int version() {
    return 1;
  }
}
