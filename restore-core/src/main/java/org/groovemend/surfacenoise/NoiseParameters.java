package org.groovemend.surfacenoise;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of the surface-noise treatment.
 *
 * @param reductionDb how far groove noise is lowered, 0 (not at all: every bit stays) to 60 dB;
 *     also the most that anything can be lowered
 * @param shortFrameMilliseconds wanted length of the short frames, 5 to 100 ms; the nearest power
 *     of two in samples is used
 * @param longFrameMilliseconds wanted length of the long frames, 20 to 500 ms, at least twice the
 *     short ones
 * @param shortPriorSmoothing weight of the neighbouring short frame in the decision-directed
 *     estimate, 0.8 to 0.995
 * @param longPriorSmoothing the same for the long frames
 * @param priorFloorDb least a-priori signal-to-noise ratio in the recursion, -40 to -5 dB
 * @param levelRangeDb how far the level of the groove noise may be followed during the music, 0
 *     (not followed) to 6 dB either way
 * @param spectrumSmoothingOctaves width over which the noise spectrum is smoothed, 0 to 1 octave
 */
public record NoiseParameters(
    @Setting(
            why =
                "How far groove noise is lowered, and the most that anything can be; 0 leaves every bit alone. Even hiss is"
                    + " accepted, dulled treble is not, so little is taken (common practice, no source)",
            unit = "dB",
            min = 0,
            max = 60)
        double reductionDb,
    @Setting(
            why = "Length of the short spectra, which keep attacks and moving pitch",
            unit = "milliseconds",
            min = 5,
            max = 100)
        double shortFrameMilliseconds,
    @Setting(
            why = "Length of the long spectra, which part held tones from noise",
            unit = "milliseconds",
            min = 20,
            max = 500)
        double longFrameMilliseconds,
    @Setting(
            why =
                "Weight of the neighbouring short spectrum in judging what is music; more is steadier, less is quicker",
            min = 0.8,
            max = 0.995)
        double shortPriorSmoothing,
    @Setting(why = "The same for the long spectra", min = 0.8, max = 0.995)
        double longPriorSmoothing,
    @Setting(
            why =
                "Least signal-to-noise ratio assumed anywhere; lower lets single lines of noise twitter",
            unit = "dB",
            min = -40,
            max = -5)
        double priorFloorDb,
    @Setting(
            why =
                "How far the level of the groove noise may be followed during the music, either way",
            unit = "dB",
            min = 0,
            max = 6)
        double levelRangeDb,
    @Setting(
            why = "Width over which the noise spectrum of the bare groove is smoothed",
            unit = "octaves",
            min = 0,
            max = 1)
        double spectrumSmoothingOctaves)
    implements StageParameters {

  public NoiseParameters {
    StageParameters.requireWithin("reductionDb", reductionDb, 0, 60);
    StageParameters.requireWithin("shortFrameMilliseconds", shortFrameMilliseconds, 5, 100);
    StageParameters.requireWithin("longFrameMilliseconds", longFrameMilliseconds, 20, 500);
    if (longFrameMilliseconds < 2 * shortFrameMilliseconds) {
      throw new IllegalArgumentException(
          "longFrameMilliseconds "
              + longFrameMilliseconds
              + " is less than twice shortFrameMilliseconds "
              + shortFrameMilliseconds);
    }
    StageParameters.requireWithin("shortPriorSmoothing", shortPriorSmoothing, 0.8, 0.995);
    StageParameters.requireWithin("longPriorSmoothing", longPriorSmoothing, 0.8, 0.995);
    StageParameters.requireWithin("priorFloorDb", priorFloorDb, -40, -5);
    StageParameters.requireWithin("levelRangeDb", levelRangeDb, 0, 6);
    StageParameters.requireWithin("spectrumSmoothingOctaves", spectrumSmoothingOctaves, 0, 1);
  }

  /** The gentle treatment: 8 dB. */
  public static NoiseParameters defaults() {
    return new NoiseParameters(8, 23, 186, 0.98, 0.97, -25, 3, 1.0 / 12);
  }

  /** Takes less: 5 dB. */
  public static NoiseParameters gentle() {
    return defaults().withReductionDb(5);
  }

  public NoiseParameters withReductionDb(double db) {
    return new NoiseParameters(
        db,
        shortFrameMilliseconds,
        longFrameMilliseconds,
        shortPriorSmoothing,
        longPriorSmoothing,
        priorFloorDb,
        levelRangeDb,
        spectrumSmoothingOctaves);
  }

  /** Amplitude gain below which nothing is lowered. */
  public double gainFloor() {
    return StrictMath.pow(10, -reductionDb / 20);
  }

  @Override
  public StageId stage() {
    return StageId.NOISE;
  }

  @Override
  public int version() {
    return 2;
  }
}
