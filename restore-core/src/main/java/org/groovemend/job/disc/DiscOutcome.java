package org.groovemend.job.disc;

import java.nio.file.Path;
import org.groovemend.rotation.RotationFinding;

/**
 * The disc as it was drawn.
 *
 * @param picture the file written
 * @param rpm turns a minute it was drawn with
 * @param stated true if a person gave them
 * @param rotation what the repairs say; scratches are those at {@code rpm}
 * @param disc size of disc taken, in words
 * @param outerMm radius of the first frame
 * @param innerMm radius of the last
 * @param frames length of the side
 * @param sampleRateHz frames a second
 */
public record DiscOutcome(
    Path picture,
    double rpm,
    boolean stated,
    RotationFinding rotation,
    String disc,
    double outerMm,
    double innerMm,
    long frames,
    int sampleRateHz) {}
