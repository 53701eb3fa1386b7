package org.groovemend.simulate;

import java.util.ArrayList;
import java.util.List;
import org.groovemend.playback.ChosenCurve;
import org.groovemend.playback.PlaybackFilter;
import org.groovemend.playback.RecursiveFilter;

/**
 * A flat transfer of an invented disc that was cut through a recording curve: only with the right
 * playback curve does it sound as it was played. Noise and damage arise in the groove, so no curve
 * lies on them until a playback curve does.
 *
 * <p>The arrays are the caller's to read, not to change.
 *
 * @param transfer planar, two channels, full scale 1.0, peak -6 dBFS
 * @param music alone, before the recording curve, at the same level at 1 kHz
 * @param sampleRateHz of both
 * @param curve playback curve that fits, as {@link ChosenCurve} reads it
 */
public record FlatDisc(double[][] transfer, double[][] music, int sampleRateHz, String curve) {

  /** Turnover 300 Hz with a shelf at 40 Hz, treble cut 5 dB at 10 kHz: invented. */
  private static final String COARSE_CURVE = "300/5/40";

  private static final double PEAK = 0.501187; // -6 dBFS
  private static final int LP_RATE = 96_000;
  private static final double LP_DROP_SECONDS = 0.3;
  private static final double LP_MUSIC_SECONDS = 3;
  private static final double LP_LEVEL = 0.1;

  /** Fine groove near the edge of a long-playing disc, 250 grooves an inch (order of the trade). */
  private static final Turntable LP_TURNTABLE = new Turntable(100.0 / 3, 0.146, 0.0254 / 250);

  private static final Transfer LP_TRANSFER = new Transfer(LP_RATE, Pickup.ordinary(), 0.4);

  /** The demonstration side, had it been cut through a curve: coarse groove, half a minute. */
  public static FlatDisc coarse(long seed) {
    DemoSide side = DemoSide.generate(seed);
    double[][] groove = new double[2][];
    for (int c = 0; c < 2; c++) {
      groove[c] = side.damaged()[c].clone();
      for (int i = 0; i < groove[c].length; i++) {
        groove[c][i] -= side.clean()[c][i];
      }
    }
    return cut(side.clean(), groove, side.sampleRateHz(), COARSE_CURVE);
  }

  /**
   * A fine groove, stereo: a harpsichord in a room.
   *
   * @param seconds in all, 6 or more
   */
  public static FlatDisc microgroove(long seed, double seconds) {
    Chance chance = new Chance(seed).fork(7);
    int frames = (int) Math.round(seconds * LP_RATE);
    int start = (int) Math.round(LP_MUSIC_SECONDS * LP_RATE);
    double[][] played =
        RestraintPiece.HARPSICHORD.play(LP_RATE, seconds - LP_MUSIC_SECONDS, chance.nextLong());
    double[][] music = new double[2][frames];
    for (int c = 0; c < 2; c++) {
      for (int i = start; i < frames; i++) {
        music[c][i] = LP_LEVEL * played[c][i - start];
      }
    }
    double[][] groove = new double[2][frames];
    int drop = (int) Math.round(LP_DROP_SECONDS * LP_RATE);
    SurfaceNoise.Level level =
        new SurfaceNoise.Level(-62, -62.5, 0.15, LP_TURNTABLE.grooveSpeed(0));
    new SurfaceNoise(LP_TRANSFER, LP_TURNTABLE, level, chance.nextLong()).addTo(groove, 0, frames);
    for (double[] wall : groove) {
      java.util.Arrays.fill(wall, 0, drop, 0);
    }
    DamagePlan plan = new DamagePlan(LP_RATE, LP_TURNTABLE, chance.nextLong());
    List<Impulse> impulses = new ArrayList<>();
    impulses.addAll(
        plan.scattered(DamageKind.CRACKLE, LP_DROP_SECONDS + 0.05, seconds, 6, 0.03e-6, 0.3e-6));
    impulses.addAll(
        plan.scattered(DamageKind.DUST, LP_DROP_SECONDS + 0.05, seconds, 1.5, 0.4e-6, 3e-6));
    new DamageModel(LP_TRANSFER, LP_TURNTABLE, impulses).addTo(groove, 0, 0, frames);
    return cut(music, groove, LP_RATE, "riaa");
  }

  /** Cuts music through the recording curve, adds what is in the groove, sets the level. */
  private static FlatDisc cut(double[][] music, double[][] groove, int rate, String curve) {
    RecursiveFilter recording =
        PlaybackFilter.design(ChosenCurve.of(curve).curve(), rate).inverse();
    double peak = 0;
    double[][] transfer = new double[2][music[0].length];
    for (int c = 0; c < 2; c++) {
      recording.fromRest(music[c], transfer[c], 0, music[c].length);
      for (int i = 0; i < transfer[c].length; i++) {
        transfer[c][i] += groove[c][i];
        peak = Math.max(peak, Math.abs(transfer[c][i]));
      }
    }
    double[][] level = new double[2][music[0].length];
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < transfer[c].length; i++) {
        transfer[c][i] *= PEAK / peak;
        level[c][i] = music[c][i] * PEAK / peak;
      }
    }
    return new FlatDisc(transfer, level, rate, curve);
  }
}
