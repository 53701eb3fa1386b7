/**
 * How fast a side ought to run: what tells it, what was found, and the map of time that puts it
 * right.
 *
 * <p>{@link org.groovemend.speed.SpeedAnalyser} follows steady partials through a side and asks
 * them two things: where they lie between the notes of a scale (circular statistics), and whether
 * they sway once a turn, all together, as over a hole that is off the middle (1 / radius). With
 * what a person knows of turntable, disc and hum that gives factors with intervals, weighed in
 * {@link org.groovemend.speed.SpeedEstimate}. Papers stand in the classes.
 *
 * <p>This room judges and describes; it changes no sound. {@link org.groovemend.speed.TimeMap} is
 * what a deliverable is made with, by {@link org.groovemend.resample.Resampled}. No stage of the
 * chain changes time, so that a clean copy keeps the frames of its original.
 *
 * <p>Limits: the players' pitch is taken as stated; semitones are left open; music that moves in
 * strict time with the turn can be taken for wow.
 */
package org.groovemend.speed;
