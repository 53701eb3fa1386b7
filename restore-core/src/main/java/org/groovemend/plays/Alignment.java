package org.groovemend.plays;

/**
 * How another play lies against the reference: a moment t of the reference comes at {@code
 * offsetSeconds + ratio * (t + delay(t))} of the play.
 *
 * @param offsetSeconds of the play's own time, at the reference's first frame, wow aside
 * @param ratio how many seconds of the play a second of the reference takes; above 1 if the play
 *     ran slower
 * @param delay what is left: the difference of drift and wow, seconds of the reference
 * @param scale by which the doubts of {@code delay} are to be multiplied: how the anchors scatter,
 *     over what the bound allows; 1 or more
 * @param fromSeconds where both plays begin to be there, of the reference
 * @param toSeconds where one of them ends
 * @param opposed true if the play has the opposite sense
 * @param followHertz how fast a swing of the speeds is followed
 * @param anchors passages that tell
 * @param likeness median correlation of the louder anchors
 * @param scatterSeconds root mean square of the anchors about the curve, by their weights
 */
record Alignment(
    double offsetSeconds,
    double ratio,
    SmoothCurve delay,
    double scale,
    double fromSeconds,
    double toSeconds,
    boolean opposed,
    double followHertz,
    int anchors,
    double likeness,
    double scatterSeconds) {

  PlayMap map(double referenceHz, double playHz, long pad) {
    return new PlayMap(offsetSeconds, ratio, delay, referenceHz, playHz, pad);
  }

  /** Standard deviation of the delay at a moment, seconds. */
  double doubtSeconds(double seconds) {
    return scale * delay.doubt(seconds);
  }
}
