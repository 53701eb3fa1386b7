/**
 * Bands: where the tracks of a side begin and end, and how a side is cut into them.
 *
 * <p>In a gap between two bands nothing is heard but the groove: the spectrum is that of the groove
 * noise, as in lead-in and run-out, and steady, while music lies above it in some band of
 * frequencies. So levels in half octaves are compared with the groove noise there, by weight of
 * evidence, and the most likely sequence of groove and music is taken (CellLevels, GrooveFloor,
 * MusicEvidence, GapSearch; method our own but for the dynamic programming). A stretch is doubted
 * where it is short, where notes are heard in it, or where nothing told what bare groove sounds
 * like. Where people clap between pieces there is no gap: then only the place of least level can be
 * told, and it is told as a doubt (BandPlanner).
 *
 * <p>Limits: music fainter than the groove noise in every half octave is not told from it; a
 * general pause of a second within a piece, recorded with no hiss of its own, looks like a gap.
 */
package org.groovemend.bands;
