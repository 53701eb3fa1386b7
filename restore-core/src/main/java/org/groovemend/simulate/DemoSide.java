package org.groovemend.simulate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The demonstration side: half a minute of an invented, worn, coarse-groove disc in a flat
 * transfer.
 *
 * <p>Needle drop, lead-in groove, music, run-out groove with its join once a turn, lift. Peak of
 * {@link #damaged} is -6 dBFS. The arrays are the caller's to read, not to change.
 *
 * @param damaged planar, two walls, full scale 1.0: what the transfer holds
 * @param clean the music alone through pickup and converter, at the same level
 * @param impulses discrete damage alone (ticks, crackle, needle drop, lift): {@code damaged -
 *     impulses} is the music with its steady noises
 * @param sampleRateHz {@value #SAMPLE_RATE_HZ}
 * @param truth where everything lies
 */
public record DemoSide(
    double[][] damaged, double[][] clean, double[][] impulses, int sampleRateHz, Truth truth) {

  public static final int SAMPLE_RATE_HZ = 96_000;

  private static final double SECONDS = 30.0;
  private static final double DROP_SECONDS = 0.5;
  private static final double MUSIC_SECONDS = 3.8;
  private static final double ROOM_SECONDS = 0.7;
  private static final double LIFT_SECONDS = 29.3;
  private static final double PEAK = 0.501187; // -6 dBFS

  /** Ten-inch coarse groove at the outside, 96 grooves an inch (order of size of the trade). */
  private static final Turntable TURNTABLE =
      new Turntable(Turntable.COARSE_GROOVE_RPM, 0.118, 0.0254 / 96);

  /** Gain of the invented transfer: 0.4 m/s peak reaches full scale. */
  private static final Transfer TRANSFER = new Transfer(SAMPLE_RATE_HZ, Pickup.ordinary(), 0.4);

  private static final double MUSIC_PEAK = 0.36;
  private static final double RIGHT_WALL_MUSIC = 0.96;
  private static final double NOISE_LEFT_DBFS = -54.5;
  private static final double NOISE_RIGHT_DBFS = -53.0;
  private static final double WALL_CORRELATION = 0.35;

  /**
   * Where everything lies, frames half open.
   *
   * @param rpm turntable speed
   * @param needleDrop first frame with the stylus on the disc
   * @param leadInStart first frame of undisturbed lead-in groove
   * @param leadInEnd one past its last: the music begins
   * @param musicStart equals {@code leadInEnd}
   * @param musicEnd one past the last frame with music, its room included
   * @param runOutEnd one past the last frame of run-out groove: the stylus is lifted
   * @param ranges damaged samples per channel, by place
   */
  public record Truth(
      double rpm,
      long needleDrop,
      long leadInStart,
      long leadInEnd,
      long musicStart,
      long musicEnd,
      long runOutEnd,
      List<DamagedRange> ranges) {
    public Truth {
      ranges = List.copyOf(ranges);
    }
  }

  /**
   * The side of a seed; the seed moves damage, noise and the players' small liberties, not the
   * tune.
   */
  public static DemoSide generate(long seed) {
    Chance chance = new Chance(seed);
    int frames = frame(SECONDS);
    int drop = frame(DROP_SECONDS);
    int lift = frame(LIFT_SECONDS);
    int musicStart = frame(MUSIC_SECONDS);
    double musicSeconds = Tune.seconds() + ROOM_SECONDS;
    int musicEnd = musicStart + frame(musicSeconds);

    double[][] clean = music(frames, musicStart, musicSeconds, chance.fork(1));
    double[][] impulses = new double[2][frames];
    int dropFrames = Handling.thump(impulses, drop, SAMPLE_RATE_HZ, 0.22, 0.012, chance.fork(2));
    int liftFrames = Handling.thump(impulses, lift, SAMPLE_RATE_HZ, 0.07, 0.006, chance.fork(3));
    DamageModel damage = new DamageModel(TRANSFER, TURNTABLE, plan(musicEnd, lift, chance.fork(4)));
    damage.addTo(impulses, 0, 0, frames);

    double[][] damaged = steadyNoises(frames, drop, lift, chance.fork(5));
    for (int c = 0; c < 2; c++) {
      for (int i = 0; i < frames; i++) {
        damaged[c][i] += clean[c][i] + impulses[c][i];
      }
    }
    double gain = PEAK / peak(damaged);
    for (double[][] planes : List.of(damaged, clean, impulses)) {
      scale(planes, gain);
    }

    double floor = 0.1 * StrictMath.pow(10, NOISE_LEFT_DBFS / 20);
    List<DamagedRange> ranges = new ArrayList<>();
    for (DamagedRange r : damage.ranges(floor, 2, frames)) {
      ranges.add(new DamagedRange(r.kind(), r.channel(), r.start(), r.end(), r.peak() * gain));
    }
    for (int c = 0; c < 2; c++) {
      ranges.add(handled(DamageKind.NEEDLE_DROP, c, drop, drop + dropFrames, impulses[c]));
      ranges.add(handled(DamageKind.LIFT, c, lift, lift + liftFrames, impulses[c]));
    }
    ranges.sort(DamageModel.BY_PLACE);
    Truth truth =
        new Truth(
            TURNTABLE.rpm(),
            drop,
            drop + dropFrames,
            musicStart,
            musicStart,
            musicEnd,
            lift,
            ranges);
    return new DemoSide(damaged, clean, impulses, SAMPLE_RATE_HZ, truth);
  }

  private static DamagedRange handled(
      DamageKind kind, int channel, int start, int end, double[] samples) {
    double peak = 0;
    for (int i = start; i < end; i++) {
      peak = Math.max(peak, Math.abs(samples[i]));
    }
    return new DamagedRange(kind, channel, start, end, peak);
  }

  /** A lateral groove: the same on both walls but for their wear. */
  private static double[][] music(int frames, int start, double seconds, Chance chance) {
    double[] band = Band.play(SAMPLE_RATE_HZ, seconds, chance);
    TRANSFER.pickup().section(SAMPLE_RATE_HZ).process(band);
    int fade = frame(0.25);
    double peak = 0;
    for (int i = 0; i < band.length; i++) {
      int left = band.length - i;
      if (left < fade) {
        band[i] *= 0.5 - 0.5 * StrictMath.cos(Math.PI * left / fade);
      }
      peak = Math.max(peak, Math.abs(band[i]));
    }
    double[][] out = new double[2][frames];
    for (int i = 0; i < band.length; i++) {
      out[0][start + i] = band[i] * MUSIC_PEAK / peak;
      out[1][start + i] = RIGHT_WALL_MUSIC * out[0][start + i];
    }
    return out;
  }

  private static List<Impulse> plan(int musicEnd, int lift, Chance chance) {
    DamagePlan plan = new DamagePlan(SAMPLE_RATE_HZ, TURNTABLE, chance.nextLong());
    double from = DROP_SECONDS + 0.05;
    double to = LIFT_SECONDS - 0.02;
    List<Impulse> list = new ArrayList<>();
    list.addAll(plan.scattered(DamageKind.CRACKLE, from, to, 30, 0.03e-6, 0.4e-6));
    list.addAll(plan.scattered(DamageKind.DUST, from, to, 2.5, 0.5e-6, 4.5e-6));
    list.addAll(plan.scratch(0.6, 9.5, chance.uniform(), 0.0006, 4.5e-6));
    list.addAll(plan.scratch(11.0, 19.0, chance.uniform(), -0.0009, 6e-6));
    list.addAll(plan.scratch(17.0, 26.0, chance.uniform(), 0.0, 2.5e-6));
    // the run-out closes upon itself: the stylus meets the join once a turn
    for (Impulse join :
        plan.scratch(
            musicEnd / (double) SAMPLE_RATE_HZ,
            lift / (double) SAMPLE_RATE_HZ - 0.05,
            chance.uniform(),
            0,
            5e-6)) {
      GroovePulse wide = new GroovePulse(join.pulse().heightMetres() * 4, 400e-6, 900e-6);
      list.add(new Impulse(DamageKind.RUN_OUT, join.atFrame(), wide, 0.9, 0.7));
    }
    return list;
  }

  private static double[][] steadyNoises(int frames, int drop, int lift, Chance chance) {
    double[][] out = new double[2][frames];
    SurfaceNoise.Level level =
        new SurfaceNoise.Level(
            NOISE_LEFT_DBFS, NOISE_RIGHT_DBFS, WALL_CORRELATION, TURNTABLE.grooveSpeed(0));
    SurfaceNoise noise = new SurfaceNoise(TRANSFER, TURNTABLE, level, chance.nextLong());
    noise.addTo(out, 0, frames);
    for (double[] wall : out) {
      Arrays.fill(wall, 0, drop, 0);
      Arrays.fill(wall, lift, frames, 0);
    }
    Rumble.addTo(out, drop, lift, SAMPLE_RATE_HZ, TURNTABLE, -66, -70, chance.fork(1));
    Hum.addTo(out, SAMPLE_RATE_HZ, 50, -76, chance.fork(2));
    Chance amplifier = chance.fork(3);
    double hiss = StrictMath.pow(10, -100 / 20.0);
    for (int i = 0; i < frames; i++) {
      out[0][i] += hiss * amplifier.gaussian();
      out[1][i] += hiss * amplifier.gaussian();
    }
    return out;
  }

  private static double peak(double[][] planes) {
    double peak = 0;
    for (double[] plane : planes) {
      for (double y : plane) {
        peak = Math.max(peak, Math.abs(y));
      }
    }
    return peak;
  }

  private static void scale(double[][] planes, double gain) {
    for (double[] plane : planes) {
      for (int i = 0; i < plane.length; i++) {
        plane[i] *= gain;
      }
    }
  }

  private static int frame(double seconds) {
    return (int) Math.round(seconds * SAMPLE_RATE_HZ);
  }
}
