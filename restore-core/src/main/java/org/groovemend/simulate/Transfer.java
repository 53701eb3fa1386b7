package org.groovemend.simulate;

/**
 * How groove velocity becomes samples: pickup, gain, converter. Flat, no playback curve.
 *
 * @param sampleRateHz 8,000 to 384,000
 * @param pickup coil and load
 * @param fullScaleMetresPerSecond groove velocity that reaches amplitude 1.0 at low frequencies
 */
public record Transfer(int sampleRateHz, Pickup pickup, double fullScaleMetresPerSecond) {

  public Transfer {
    if (sampleRateHz < 8_000 || sampleRateHz > 384_000) {
      throw new IllegalArgumentException(
          "sampleRateHz " + sampleRateHz + " is outside 8000 to 384000");
    }
    if (!(fullScaleMetresPerSecond > 0)) {
      throw new IllegalArgumentException(
          "fullScaleMetresPerSecond " + fullScaleMetresPerSecond + " is not above 0");
    }
  }
}
