package org.groovemend.job.inspect;

import java.nio.file.Path;
import org.groovemend.limits.LimitProfile;
import org.groovemend.playback.CaptureCurve;

/**
 * What is asked of a transfer.
 *
 * @param file to read
 * @param captured how it was made; if unknown, its clicks are asked
 * @param limits by which findings are judged
 * @param pictures whether what only the page needs is made too
 */
public record InspectRequest(
    Path file, CaptureCurve captured, LimitProfile limits, boolean pictures) {}
