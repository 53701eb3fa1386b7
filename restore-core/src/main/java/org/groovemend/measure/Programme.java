package org.groovemend.measure;

import java.util.List;

/**
 * What a broadcaster asks of a programme.
 *
 * @param loudness after ITU-R BS.1770 and EBU Tech 3341, 3342
 * @param truePeakDbtp largest of all channels, dB re full scale; negative infinity for silence
 * @param truePeakDbtpByChannel the same of each
 */
public record Programme(
    Loudness loudness, double truePeakDbtp, List<Double> truePeakDbtpByChannel) {}
