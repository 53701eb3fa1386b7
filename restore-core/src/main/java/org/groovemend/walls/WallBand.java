package org.groovemend.walls;

/**
 * How the walls agree in an octave.
 *
 * @param centreHertz middle of the octave
 * @param correlation of both walls over the whole side, delay taken out, -1 to 1; NaN for silence
 * @param balanceDb level of what both share in the right wall re the left one, dB, as it is applied
 * @param balanceDoubtDb standard deviation of what this octave alone tells; infinite for nothing
 * @param verticalDb vertical part re lateral part where the side is loud, balanced and aligned,
 *     with its noise, dB; for an opposed side lateral re vertical
 */
public record WallBand(
    double centreHertz,
    double correlation,
    double balanceDb,
    double balanceDoubtDb,
    double verticalDb) {}
