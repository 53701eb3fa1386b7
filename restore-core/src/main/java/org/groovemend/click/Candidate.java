package org.groovemend.click;

/**
 * A place that stands out of its surroundings, in one channel.
 *
 * @param start first frame of the damage, by frame number of the side
 * @param length frames
 * @param channel 0 based
 * @param logOdds natural logarithm of the odds of damage against music ({@link WeightOfEvidence})
 * @param pulsedLogOdds the same where the sound itself comes in pulses
 * @param scale standard deviation of the detection model's error there, full scale 1.0
 * @param fill samples of the filled place
 * @param traits by ordinal of {@link Trait}
 */
record Candidate(
    long start,
    int length,
    int channel,
    double logOdds,
    double pulsedLogOdds,
    double scale,
    double[] fill,
    double[] traits) {
  long end() {
    return start + length;
  }

  /** The same judged as one of many pulses, where that is the less damning. */
  Candidate amongPulses() {
    return pulsedLogOdds >= logOdds
        ? this
        : new Candidate(start, length, channel, pulsedLogOdds, pulsedLogOdds, scale, fill, traits);
  }
}
