package org.groovemend.levels;

import org.groovemend.playback.PlaybackCurve;

/**
 * Preamplifier gain and the room it leaves, for music and clicks apart, before and behind the
 * curve.
 *
 * @param chain what was planned for
 * @param mostGainDb most gain at which music keeps {@link Chain#musicRoomDb} and clicks just fit,
 *     before the curve
 * @param room what the curve does to them
 * @param musicDbfs peak of the loudest music at the converter with the chain's gain
 * @param clickDbfs peak of the worst click
 * @param musicBehindDbfs the most that music can be behind the curve: all of it where the curve
 *     lifts most
 * @param clickBehindDbfs peak of the click there
 * @param curveGainDb gain of the curve stage that keeps both below full scale, 0 or less
 */
public record GainPlan(
    Chain chain,
    double mostGainDb,
    CurveRoom room,
    double musicDbfs,
    double clickDbfs,
    double musicBehindDbfs,
    double clickBehindDbfs,
    double curveGainDb) {

  /**
   * From groove to converter.
   *
   * @param pickup what it gives
   * @param gainDb of the preamplifier, flat; NaN to take the most that fits
   * @param fullScale sine at the converter's input that reaches 0 dBFS
   * @param loudestDb loudest music re 5 cm/s, dB; some 20 on fine grooves (measured velocities in
   *     the hi-fi press)
   * @param clickDb worst click over the loudest music in a flat transfer, dB; 10 to 20 (common
   *     practice, no source)
   * @param musicRoomDb room to keep above the music, dB; 12 to 20 (common practice, no source)
   * @param curve of the disc
   */
  public record Chain(
      Pickup pickup,
      double gainDb,
      Level fullScale,
      double loudestDb,
      double clickDb,
      double musicRoomDb,
      PlaybackCurve curve) {
    public Chain {
      requireWithin("loudest music", loudestDb, -20, 40);
      requireWithin("clicks over music", clickDb, -20, 40);
      requireWithin("room above the music", musicRoomDb, 0, 60);
      if (!Double.isNaN(gainDb)) {
        requireWithin("gain", gainDb, -40, 100);
      }
    }

    private static void requireWithin(String name, double value, double least, double most) {
      if (!(value >= least && value <= most)) {
        throw new IllegalArgumentException(
            name + " of " + value + " dB is outside " + least + " to " + most);
      }
    }
  }

  /** Plans. */
  public static GainPlan of(Chain given) {
    Level loudest = given.pickup().at(Pickup.REFERENCE_VELOCITY).plus(given.loudestDb());
    double below = given.fullScale().over(loudest);
    double most = below - Math.max(given.musicRoomDb(), given.clickDb());
    double gain = Double.isNaN(given.gainDb()) ? Math.floor(most) : given.gainDb();
    Chain chain =
        new Chain(
            given.pickup(),
            gain,
            given.fullScale(),
            given.loudestDb(),
            given.clickDb(),
            given.musicRoomDb(),
            given.curve());
    CurveRoom room = CurveRoom.of(given.curve());
    double music = gain - below;
    double click = music + given.clickDb();
    double musicBehind = music + Math.max(0, room.mostDb());
    double clickBehind = click + room.clickDb();
    return new GainPlan(
        chain,
        most,
        room,
        music,
        click,
        musicBehind,
        clickBehind,
        Math.min(0, -Math.max(musicBehind, clickBehind)));
  }
}
