package org.groovemend.deliverable;

import org.groovemend.measure.Loudness;

/**
 * How loud a copy is.
 *
 * @param loudness after ITU-R BS.1770 and EBU R 128
 * @param samplePeakDbfs largest sample of any channel, negative infinity for silence
 */
public record CopyLevel(Loudness loudness, double samplePeakDbfs) {}
