package org.groovemend.walls;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of the stage that makes one signal of two walls.
 *
 * @param result what comes out
 * @param when whether the evidence decides
 * @param weights how the walls are weighed
 * @param passageSeconds 0.5 to 10
 */
public record MonoParameters(
    @Setting(
            why =
                "What comes out: combined (one signal, the same words in both channels), aligned (two signals, delay, balance and"
                    + " polarity corrected) or measured (the walls are measured, nothing is changed)")
        Result result,
    @Setting(
            why =
                "Whether a side that is stereo, in doubt or has one wall only is left alone: judged, or treated as mono in any case:"
                    + " always")
        When when,
    @Setting(
            why =
                "How the walls are weighed: local (by octave and passage for the least noise, the music unchanged) or equal (half of"
                    + " each, aligned)")
        Weights weights,
    @Setting(
            why =
                "Distance of the moments at which the weights are found anew; between them they turn evenly. Shorter follows"
                    + " wear that changes quickly and is less sure of each weight",
            unit = "seconds",
            min = 0.5,
            max = 10)
        double passageSeconds)
    implements StageParameters {

  /** What comes out. */
  public enum Result {
    COMBINED,
    ALIGNED,
    MEASURED
  }

  /** When the stage acts. */
  public enum When {
    JUDGED,
    ALWAYS
  }

  /** How the walls are weighed. */
  public enum Weights {
    LOCAL,
    EQUAL
  }

  public MonoParameters {
    StageParameters.requireWithin("passageSeconds", passageSeconds, 0.5, 10);
  }

  public static MonoParameters defaults() {
    return new MonoParameters(Result.COMBINED, When.JUDGED, Weights.LOCAL, 1);
  }

  /** Half of each wall. */
  public static MonoParameters gentle() {
    return new MonoParameters(Result.COMBINED, When.JUDGED, Weights.EQUAL, 1);
  }

  public MonoParameters with(Result wanted) {
    return new MonoParameters(wanted, when, weights, passageSeconds);
  }

  public MonoParameters with(When wanted) {
    return new MonoParameters(result, wanted, weights, passageSeconds);
  }

  public MonoParameters with(Weights wanted) {
    return new MonoParameters(result, when, wanted, passageSeconds);
  }

  /** Measures at most. */
  public boolean isNeutral() {
    return result == Result.MEASURED;
  }

  @Override
  public StageId stage() {
    return StageId.MONO;
  }

  @Override
  public int version() {
    return 1;
  }
}
