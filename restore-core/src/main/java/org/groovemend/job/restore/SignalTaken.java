package org.groovemend.job.restore;

import org.groovemend.playback.CurveTaken;
import org.groovemend.rumble.RumbleTaken;

/**
 * What the stages that may change any sample did, where they measure it.
 *
 * @param rumble null if that stage took nothing
 * @param curve null if there was none
 * @param walls how the walls were weighed, or null if they were not
 */
record SignalTaken(RumbleTaken rumble, CurveTaken curve, WallWeights walls) {}
