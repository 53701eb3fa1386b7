package org.groovemend.click;

import java.util.List;

/**
 * What the analysis of a side found; the detector's thresholds for that side.
 *
 * @param domain where clicks are sought and filled: "curve-undone", "flat", or "flat-assumed" when
 *     the capture curve is not stated
 * @param thresholds of the log odds of damage, per channel
 * @param tailStarts log odds above which the tail was fitted, per channel
 * @param tailSpreads spread of the fitted tail, per channel
 * @param tailRatesPerMinute candidates of undamaged sound above the tail's start, per minute and
 *     channel
 * @param residualScales median standard deviation of the detection residual where candidates were
 *     met, full scale 1.0, per channel
 * @param expectedFalseAlarmsPerMinute of all channels together, at these thresholds
 * @param analysedSeconds how much of the side was looked at
 * @param alarms the same with its interval
 * @param turnSeconds time of one turn of the disc as the clicks tell it, or null if they do not
 * @param recall how many clicks of known size would be found, or null if it was not tried
 */
public record ClickCalibration(
    String domain,
    List<Double> thresholds,
    List<Double> tailStarts,
    List<Double> tailSpreads,
    List<Double> tailRatesPerMinute,
    List<Double> residualScales,
    double expectedFalseAlarmsPerMinute,
    double analysedSeconds,
    ClickAlarms alarms,
    Double turnSeconds,
    ClickRecall recall) {
  public ClickCalibration {
    thresholds = List.copyOf(thresholds);
    tailStarts = List.copyOf(tailStarts);
    tailSpreads = List.copyOf(tailSpreads);
    tailRatesPerMinute = List.copyOf(tailRatesPerMinute);
    residualScales = List.copyOf(residualScales);
  }

  ClickCalibration withRecall(ClickRecall tried) {
    return new ClickCalibration(
        domain,
        thresholds,
        tailStarts,
        tailSpreads,
        tailRatesPerMinute,
        residualScales,
        expectedFalseAlarmsPerMinute,
        analysedSeconds,
        alarms,
        turnSeconds,
        tried);
  }
}
