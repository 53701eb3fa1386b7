package org.groovemend.speed;

import org.groovemend.hum.HumFinding;

/**
 * Everything that was heard about the speed of a side.
 *
 * @param tuning of the steady partials
 * @param wow once a turn
 * @param hum what hum was found, or null if it was not asked
 * @param estimate what all of it says
 */
public record SpeedFinding(
    TuningFinding tuning, WowFinding wow, HumFinding hum, SpeedEstimate estimate) {}
