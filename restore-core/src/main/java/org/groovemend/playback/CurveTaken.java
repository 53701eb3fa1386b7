package org.groovemend.playback;

/**
 * What the curve stage did to a side, measured before rounding; dB re full scale, negative infinity
 * for nothing. Goes into the ledger.
 *
 * @param peakBeforeDbfs largest magnitude that went in
 * @param peakAfterDbfs the same of what came out, gain and all
 * @param overSamples samples that came out above full scale
 * @param removedRmsDbfs root mean square of the difference
 * @param removedPeakDbfs its largest magnitude
 */
public record CurveTaken(
    double peakBeforeDbfs,
    double peakAfterDbfs,
    long overSamples,
    double removedRmsDbfs,
    double removedPeakDbfs) {}
