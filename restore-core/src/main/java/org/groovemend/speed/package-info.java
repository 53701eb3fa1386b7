/**
 * How fast a side ought to run: what tells it, what was found, and the map of time that puts it
 * right.
 *
 * <p>This room judges and describes; it changes no sound. {@link org.groovemend.speed.TimeMap} is
 * what a deliverable is made with, by {@link org.groovemend.resample.Resampled}. No stage of the
 * chain changes time, so that a clean copy keeps the frames of its original.
 */
package org.groovemend.speed;
