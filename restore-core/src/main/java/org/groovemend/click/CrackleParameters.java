package org.groovemend.click;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of the crackle pass: a second look, after click repair, for the small pulses that are
 * left between.
 *
 * @param expectedFalseAlarmsPerMinute how many places of undamaged sound may be taken for crackle
 *     in a minute of the side, all channels together; 0 switches the stage off, else 0.01 to 1000
 * @param longestRepairMilliseconds longest gap that is filled, 0.1 to 20
 * @param quietestRepairDbfs peak, in decibels re full scale, that a removed pulse must exceed, -200
 *     to -20
 */
public record CrackleParameters(
    @Setting(
            why =
                "How many places of undamaged sound may be taken for crackle in a minute, all channels together. More than"
                    + " for clicks, since what is taken is small. 0 switches the stage off",
            unit = "a minute",
            min = 0,
            max = 1000)
        double expectedFalseAlarmsPerMinute,
    @Setting(
            why = "Longest gap that is filled; crackle is short",
            unit = "milliseconds",
            min = 0.1,
            max = 20)
        double longestRepairMilliseconds,
    @Setting(
            why =
                "Peak that the removed pulse must exceed, else the place is left as it is: a repair that nobody can hear"
                    + " is no repair",
            unit = "decibels re full scale",
            min = -200,
            max = -20)
        double quietestRepairDbfs)
    implements StageParameters {

  public CrackleParameters {
    asClicks(expectedFalseAlarmsPerMinute, longestRepairMilliseconds, quietestRepairDbfs);
  }

  public static CrackleParameters defaults() {
    return new CrackleParameters(10, 4, -80);
  }

  /** Fewer repairs, for sound with hard attacks. */
  public static CrackleParameters gentle() {
    return new CrackleParameters(2, 2, -80);
  }

  /** Repairs nothing. */
  public static CrackleParameters neutral() {
    return new CrackleParameters(0, 4, -80);
  }

  public boolean isNeutral() {
    return expectedFalseAlarmsPerMinute == 0;
  }

  @Override
  public StageId stage() {
    return StageId.CRACKLE;
  }

  @Override
  public int version() {
    return 1;
  }

  /** The click machinery's settings for this pass. */
  ClickParameters asClicks() {
    return asClicks(expectedFalseAlarmsPerMinute, longestRepairMilliseconds, quietestRepairDbfs);
  }

  private static ClickParameters asClicks(double alarms, double longest, double quietest) {
    ClickParameters d = ClickParameters.defaults();
    return new ClickParameters(
        alarms, longest, d.detectionOrderAt44100Hz(), d.repairOrder(), d.repairRounds(), quietest);
  }
}
