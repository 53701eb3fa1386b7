package org.groovemend.measure;

/**
 * What one channel of a side measures.
 *
 * @param peakDbfs largest sample magnitude, dB re full scale; negative infinity for silence
 * @param rmsDbfs root mean square over the whole side, dB re full scale (a full-scale sine reads
 *     -3.01)
 * @param dcOffset mean, full scale 1.0
 * @param clippedRuns runs of 3 or more consecutive equal samples within 0.1 % of the channel's
 *     largest magnitude (common practice, no source)
 * @param longestClippedRun samples in the longest of these
 * @param firstClippedFrame where the first of these begins, -1 if there is none
 */
public record ChannelLevels(
    double peakDbfs,
    double rmsDbfs,
    double dcOffset,
    long clippedRuns,
    int longestClippedRun,
    long firstClippedFrame) {}
