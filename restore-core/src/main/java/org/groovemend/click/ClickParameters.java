package org.groovemend.click;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of click repair.
 *
 * @param expectedFalseAlarmsPerMinute how many places of undamaged sound may be taken for clicks in
 *     a minute of the side, all channels together; 0 switches the stage off, else 0.01 to 1000
 * @param longestRepairMilliseconds longest gap that is filled, 0.1 to 20; longer damage is left
 * @param detectionOrderAt44100Hz order of the detection model, 8 to 64; grows with the sampling
 *     rate
 * @param repairOrder order of the interpolation model, 32 to 1024
 * @param repairRounds times the model is fitted and the gap filled, 1 to 5
 * @param quietestRepairDbfs peak, in decibels re full scale, that a removed pulse must exceed, -200
 *     to -20
 */
public record ClickParameters(
    @Setting(
            why =
                "How many places of undamaged sound may be taken for clicks in a minute, all channels together; the"
                    + " threshold follows from this and from the side itself. 0 switches the stage off. Two a minute is"
                    + " what a listener to a whole side does not notice (common practice, no source)",
            unit = "a minute",
            min = 0,
            max = 1000)
        double expectedFalseAlarmsPerMinute,
    @Setting(
            why =
                "Longest gap that is filled; longer damage is left for a person, since a fill would be invention",
            unit = "milliseconds",
            min = 0.1,
            max = 20)
        double longestRepairMilliseconds,
    @Setting(
            why =
                "Order of the model that predicts undamaged sound, at 44,100 Hz; grows with the sampling rate",
            min = 8,
            max = 64)
        int detectionOrderAt44100Hz,
    @Setting(
            why = "Order of the model that fills gaps; order matters even for the shortest gaps",
            min = 32,
            max = 1024)
        int repairOrder,
    @Setting(
            why =
                "How often the model is fitted anew to the filled sound; nearly all of the gain is in three rounds",
            min = 1,
            max = 5)
        int repairRounds,
    @Setting(
            why =
                "Peak that the removed pulse must exceed, else the place is left as it is: a repair that nobody can hear"
                    + " is no repair. At a full scale of 110 dB SPL the default lies about the level of a quiet room"
                    + " (common practice, no source)",
            unit = "decibels re full scale",
            min = -200,
            max = -20)
        double quietestRepairDbfs)
    implements StageParameters {

  public ClickParameters {
    if (expectedFalseAlarmsPerMinute != 0) {
      StageParameters.requireWithin(
          "expectedFalseAlarmsPerMinute", expectedFalseAlarmsPerMinute, 0.01, 1000);
    }
    StageParameters.requireWithin("longestRepairMilliseconds", longestRepairMilliseconds, 0.1, 20);
    StageParameters.requireWithin("detectionOrderAt44100Hz", detectionOrderAt44100Hz, 8, 64);
    StageParameters.requireWithin("repairOrder", repairOrder, 32, 1024);
    StageParameters.requireWithin("repairRounds", repairRounds, 1, 5);
    StageParameters.requireWithin("quietestRepairDbfs", quietestRepairDbfs, -200, -20);
  }

  public static ClickParameters defaults() {
    return new ClickParameters(2.0, 8.0, 32, 256, 3, -80);
  }

  /** Fewer and shorter repairs, for sound with hard attacks. */
  public static ClickParameters gentle() {
    return new ClickParameters(0.2, 3.0, 32, 256, 3, -80);
  }

  /** Repairs nothing. */
  public static ClickParameters neutral() {
    return new ClickParameters(0, 8.0, 32, 256, 3, -80);
  }

  /** The same with another rate of alarms. */
  public ClickParameters withExpectedFalseAlarmsPerMinute(double alarms) {
    return new ClickParameters(
        alarms,
        longestRepairMilliseconds,
        detectionOrderAt44100Hz,
        repairOrder,
        repairRounds,
        quietestRepairDbfs);
  }

  public boolean isNeutral() {
    return expectedFalseAlarmsPerMinute == 0;
  }

  @Override
  public StageId stage() {
    return StageId.CLICKS;
  }

  @Override
  public int version() {
    return 2;
  }
}
