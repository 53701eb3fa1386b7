package org.groovemend.bands;

/**
 * Level over time in equal columns, mean of the half octaves from 280 Hz on, dB.
 *
 * @param low least in each column
 * @param high greatest
 * @param floor groove noise; empty if nothing told it
 */
public record LevelColumns(float[] low, float[] high, float[] floor) {}
