package org.groovemend.rumble;

import org.groovemend.stage.Setting;
import org.groovemend.stage.StageId;
import org.groovemend.stage.StageParameters;

/**
 * Settings of rumble removal.
 *
 * @param cornerHertz 5 to 40; 0 leaves what is common to both walls alone
 * @param verticalCornerHertz 20 to 200; 0 treats the vertical part like the lateral one
 * @param order 2 to 8
 * @param vertical whether the evidence decides on the vertical part
 * @param leaveBelowDb -120 to 0
 */
public record RumbleParameters(
    @Setting(
            why =
                "Constant offset, warp and rumble below are taken out of every channel; -6 dB here. Practice is 15 to 20 Hz"
                    + " (common practice, no source); at 16 the lowest note of a piano, 27.5 Hz, loses 0.11 dB. 0 takes nothing",
            unit = "hertz",
            min = 0,
            max = 40)
        double cornerHertz,
    @Setting(
            why =
                "The vertical part, half the difference of the walls, is taken out below; -6 dB here. Rumble reaches to some 60 Hz,"
                    + " and cutters mostly summed the bass of stereo below 100 to 150 (common practice, no source)."
                    + " 0 takes no more of it than of the rest",
            unit = "hertz",
            min = 0,
            max = 200)
        double verticalCornerHertz,
    @Setting(
            why =
                "Order of the Butterworth shape, whose gain counts twice as if it were run forwards and backwards, without delay"
                    + " of any frequency: 12 dB per octave each. Higher keeps more of the lowest notes and rings longer below hearing",
            min = 2,
            max = 8)
        int order,
    @Setting(
            why =
                "Whether the vertical bass is taken out: judged (only if it is as steady as rumble or far below the lateral bass), or always")
        VerticalPart vertical,
    @Setting(
            why =
                "A part that lies further than this below the loud music is left as it is; a tone of 63 Hz 60 dB below music of"
                    + " 90 dB is under the threshold of hearing",
            unit = "dB",
            min = -120,
            max = 0)
        double leaveBelowDb)
    implements StageParameters {

  /** When the vertical part is taken out. */
  public enum VerticalPart {
    /** If it is rumble by what was measured. */
    JUDGED,
    /** On any side of two channels. */
    ALWAYS
  }

  public RumbleParameters {
    if (cornerHertz != 0) {
      StageParameters.requireWithin("cornerHertz", cornerHertz, 5, 40);
    }
    if (verticalCornerHertz != 0) {
      StageParameters.requireWithin("verticalCornerHertz", verticalCornerHertz, 20, 200);
      if (verticalCornerHertz < cornerHertz) {
        throw new IllegalArgumentException(
            "verticalCornerHertz "
                + verticalCornerHertz
                + " is below cornerHertz "
                + cornerHertz
                + "; use 0 to treat the vertical part like the lateral one");
      }
    }
    StageParameters.requireWithin("order", order, 2, 8);
    StageParameters.requireWithin("leaveBelowDb", leaveBelowDb, -120, 0);
  }

  public static RumbleParameters defaults() {
    return new RumbleParameters(16, 80, 4, VerticalPart.JUDGED, -60);
  }

  /** Only what lies below any note, and less of the vertical part. */
  public static RumbleParameters gentle() {
    return new RumbleParameters(12, 50, 4, VerticalPart.JUDGED, -60);
  }

  /** Takes nothing. */
  public static RumbleParameters neutral() {
    return new RumbleParameters(0, 0, 4, VerticalPart.JUDGED, -60);
  }

  public boolean isNeutral() {
    return cornerHertz == 0 && verticalCornerHertz == 0;
  }

  /** What is taken of every channel; null for nothing. */
  LowPassShape lateral() {
    return cornerHertz == 0 ? null : new LowPassShape(cornerHertz, order);
  }

  /** What is taken of the vertical part; null for no more than of the rest. */
  LowPassShape vertical(boolean taken) {
    return verticalCornerHertz == 0 || !taken ? null : new LowPassShape(verticalCornerHertz, order);
  }

  @Override
  public StageId stage() {
    return StageId.RUMBLE;
  }

  @Override
  public int version() {
    return 1;
  }
}
